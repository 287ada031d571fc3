"""What is indexed, how it is asked, how it is kept. Only here is Whoosh known; its index keeps no texts."""
