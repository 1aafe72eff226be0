package vestibule.samples.drawing;

/**
 * A camera by what its raster shows.
 *
 * @param rows direction in the patient from the viewer's left to right, one unit long
 * @param columns direction in the patient from top to bottom, one unit long
 * @param target the point in the middle of the picture
 * @param distance millimetres from lens to target
 * @param width millimetres seen across the picture at the target
 */
record Camera(Vector3 rows, Vector3 columns, Vector3 target, double distance, double width) {
    /** The way the camera looks: rows x columns. */
    Vector3 look() {
        return rows.cross(columns);
    }

    /** Where a point lies: millimetres right of and below the middle of the picture, and behind the target. */
    Vector3 see(Vector3 point) {
        Vector3 from = point.plus(-1, target);
        double depth = from.dot(look());
        double shrink = distance / (distance + depth);
        return new Vector3(from.dot(rows) * shrink, from.dot(columns) * shrink, depth);
    }

    /** The point of the patient this far right, down and behind the target. */
    Vector3 point(double right, double down, double behind) {
        return target.plus(right, rows).plus(down, columns).plus(behind, look());
    }
}
