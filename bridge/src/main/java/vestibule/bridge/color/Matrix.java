package vestibule.bridge.color;

/** Three rows of three numbers. */
final class Matrix {

    private Matrix() {}

    static double[] times(double[] matrix, double[] vector) {
        double[] result = new double[3];
        for (int row = 0; row < 3; row++) {
            result[row] =
                    matrix[3 * row] * vector[0] + matrix[3 * row + 1] * vector[1] + matrix[3 * row + 2] * vector[2];
        }
        return result;
    }

    static double[] product(double[] left, double[] right) {
        double[] result = new double[9];
        for (int row = 0; row < 3; row++) {
            for (int column = 0; column < 3; column++) {
                for (int index = 0; index < 3; index++) {
                    result[3 * row + column] += left[3 * row + index] * right[3 * index + column];
                }
            }
        }
        return result;
    }

    /** By cofactors; the matrices here are never singular. */
    static double[] inverse(double[] m) {
        double[] cofactors = {
            m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
            m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
            m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]
        };
        double determinant = m[0] * cofactors[0] + m[1] * cofactors[3] + m[2] * cofactors[6];
        double[] result = new double[9];
        for (int index = 0; index < 9; index++) {
            result[index] = cofactors[index] / determinant;
        }
        return result;
    }
}
