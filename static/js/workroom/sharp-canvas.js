// A canvas made ready to be drawn on anew, sharp on every screen; nothing while it has no width.
export function readied(canvas) {
  const [width, height] = [canvas.clientWidth, canvas.clientHeight];
  if (!width) return null;
  const sharp = devicePixelRatio || 1;
  [canvas.width, canvas.height] = [width * sharp, height * sharp];
  const brush = canvas.getContext("2d");
  brush.scale(sharp, sharp);
  return { brush, width, height };
}
