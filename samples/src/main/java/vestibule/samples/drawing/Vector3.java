package vestibule.samples.drawing;

/** A point or direction in the patient: x to the left (L), y to the back (P), z to the head (H), millimetres. */
record Vector3(double x, double y, double z) {
    static final Vector3 ZERO = new Vector3(0, 0, 0);
    static final Vector3 HEAD = new Vector3(0, 0, 1);

    Vector3 plus(Vector3 other) {
        return new Vector3(x + other.x, y + other.y, z + other.z);
    }

    Vector3 plus(double times, Vector3 other) {
        return new Vector3(x + times * other.x, y + times * other.y, z + times * other.z);
    }

    Vector3 times(double factor) {
        return new Vector3(x * factor, y * factor, z * factor);
    }

    double dot(Vector3 other) {
        return x * other.x + y * other.y + z * other.z;
    }

    Vector3 cross(Vector3 other) {
        return new Vector3(y * other.z - z * other.y, z * other.x - x * other.z, x * other.y - y * other.x);
    }

    Vector3 unit() {
        double length = Math.sqrt(dot(this));
        return length < 1e-12 ? this : times(1 / length);
    }
}
