// Lines of work as they are drawn, on the flat pattern and on the roof: a single point is a cross.

const ARM = 0.2; // inches

// A line; of a single point the two arms of a cross, in inches.
export const crossed = (points) =>
  (points.length > 1 ? [points]
    : points.flatMap(([u, v]) => [[[u - ARM, v - ARM], [u + ARM, v + ARM]], [[u - ARM, v + ARM], [u + ARM, v - ARM]]]));
