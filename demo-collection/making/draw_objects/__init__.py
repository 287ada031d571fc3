"""Line drawings of the demo collection's objects, all in one hand."""
