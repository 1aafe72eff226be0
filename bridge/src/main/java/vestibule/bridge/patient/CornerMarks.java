package vestibule.bridge.patient;

import java.util.ArrayList;
import java.util.List;

/**
 * A quick look for the corner marks of a QR code: a dark square in a light ring in a dark ring, so that any line through its middle is dark,
 * light, dark, light, dark in the ratio 1:1:3:1:1 (ISO/IEC 18004, finder pattern). It tells whether a code can be in a picture at all, and
 * costs a fraction of the search for one.
 */
final class CornerMarks {

    /** The picture is halved until its marks would be as large as a frame. */
    private static final int SMALLEST_EDGE = 240;

    /** Brightness of a place is told from that of this many blocks around it. */
    private static final int AROUND = 2;

    private static final int BLOCK = 8;
    private static final int LEAST_CONTRAST = 40;

    /** Ink is darker than paper by more than this; grain makes shapes too, but hardly differs from one place to the next. */
    private static final int LEAST_INK = 20;

    private static final int EVERY = 2;
    private static final int LARGEST_SQUARE = 24;

    /** A code has 21 squares to a side at least and one of a card of ours 57 at most; its marks are seven fewer apart, or that by the diagonal. */
    private static final double NEAREST = 10;

    private static final double FARTHEST = 80;
    private static final double SIMILAR = 1.5;

    /** Of a pair that is to count as a broken code, the sizes differ by no more than this. */
    private static final double ALIKE = 1.15;

    /**
     * A code is printed in black on white, and hardly anything on a line through it is grey once its squares are wide enough; photographs
     * are mostly grey. Bounds by measurement: cards up to 0.13, other people's photographs from 0.19.
     */
    private static final double MOST_GREY = 0.15;

    private static final double PLAIN_SQUARE = 3;
    private static final int PLAIN_CONTRAST = 120;

    /** The code of a card of ours has its marks farther apart than this many squares. */
    private static final double CARD_APART = 25;

    /** Patterns with more marks than any picture of a card has are looked at by a person. */
    private static final int MOST_MARKS = 2_000;

    private boolean maybe;
    private boolean plainly;

    private CornerMarks() {}

    /**
     * A corner mark.
     *
     * @param x its middle, in the pixels of the picture that was looked at
     * @param y its middle
     * @param square how wide one of its seven squares is
     */
    private record Mark(double x, double y, double square) {

        double distance(Mark other) {
            return Math.hypot(x - other.x, y - other.y);
        }
    }

    private record Pair(Luminance picture, Mark one, Mark other) {}

    /** Looks at a picture, in its full size and in halves of it. */
    static CornerMarks in(Luminance picture) {
        CornerMarks found = new CornerMarks();
        Luminance level = picture;
        while (level.longestEdge() >= SMALLEST_EDGE) {
            List<Mark> marks = new Level(level).marks();
            if (marks.size() >= MOST_MARKS) {
                found.maybe = true;
                found.plainly = true;
                return found;
            }
            found.pair(level, marks);
            level = level.halved();
        }
        return found;
    }

    private void pair(Luminance picture, List<Mark> marks) {
        for (int i = 0; i < marks.size(); i++) {
            for (int j = i + 1; j < marks.size(); j++) {
                Mark one = marks.get(i);
                Mark other = marks.get(j);
                double larger = Math.max(one.square, other.square);
                double squares = one.distance(other) / ((one.square + other.square) / 2);
                if (larger / Math.min(one.square, other.square) < SIMILAR && squares > NEAREST && squares < FARTHEST) {
                    maybe = true;
                    plainly |= isPlain(new Pair(picture, one, other));
                }
            }
        }
    }

    /** Whether there may be a code: two marks of one size, as far apart as in a code. */
    boolean maybe() {
        return maybe;
    }

    /** Whether two marks are plainly those of a code, with the squares of a code between them, though it cannot be read. */
    boolean plainly() {
        return plainly;
    }

    private static boolean isPlain(Pair pair) {
        double smaller = Math.min(pair.one.square, pair.other.square);
        double squares = pair.one.distance(pair.other) / ((pair.one.square + pair.other.square) / 2);
        if (smaller < PLAIN_SQUARE
                || squares < CARD_APART
                || Math.max(pair.one.square, pair.other.square) / smaller > ALIKE) {
            return false;
        }
        int steps = (int) Math.ceil(2 * squares);
        int[] line = new int[steps + 1];
        int low = 255;
        int high = 0;
        for (int i = 0; i <= steps; i++) {
            double part = (double) i / steps;
            line[i] = pair.picture.at((int) Math.round(pair.one.x + part * (pair.other.x - pair.one.x)), (int)
                    Math.round(pair.one.y + part * (pair.other.y - pair.one.y)));
            low = Math.min(low, line[i]);
            high = Math.max(high, line[i]);
        }
        return high - low >= PLAIN_CONTRAST && isPrinted(line, low, high, squares);
    }

    /** Black and white in turns of about two squares, and little between them. */
    private static boolean isPrinted(int[] line, int low, int high, double squares) {
        int changes = 0;
        int grey = 0;
        for (int i = 0; i < line.length; i++) {
            double share = (double) (line[i] - low) / (high - low);
            grey += share > 0.3 && share < 0.7 ? 1 : 0;
            boolean light = share >= 0.5;
            changes += i > 0 && light != (line[i - 1] * 2 >= low + high) ? 1 : 0;
        }
        return changes >= squares / 3 && changes <= squares && grey <= MOST_GREY * line.length;
    }

    /** One size of the picture. */
    private static final class Level {

        private final Luminance picture;
        private final int blocksWide;
        private final int[] thresholds;

        Level(Luminance picture) {
            this.picture = picture;
            this.blocksWide = (picture.width() + BLOCK - 1) / BLOCK;
            this.thresholds = thresholds(picture, blocksWide, (picture.height() + BLOCK - 1) / BLOCK);
        }

        /** What is darker than its surroundings is dark; where there is no contrast nothing is. */
        private static int[] thresholds(Luminance picture, int columns, int rows) {
            Surroundings blocks = new Surroundings(columns, rows);
            for (int row = 0; row < rows; row++) {
                for (int column = 0; column < columns; column++) {
                    measure(picture, row, column, blocks);
                }
            }
            Surroundings around = blocks.across().down();
            int[] thresholds = new int[columns * rows];
            for (int at = 0; at < thresholds.length; at++) {
                boolean flat = around.most[at] - around.least[at] < LEAST_CONTRAST;
                thresholds[at] = flat ? 0 : around.sum[at] / around.count[at];
            }
            return thresholds;
        }

        private static void measure(Luminance picture, int row, int column, Surroundings blocks) {
            int sum = 0;
            int least = 255;
            int most = 0;
            int bottom = Math.min(picture.height(), (row + 1) * BLOCK);
            int right = Math.min(picture.width(), (column + 1) * BLOCK);
            for (int y = row * BLOCK; y < bottom; y++) {
                for (int x = column * BLOCK; x < right; x++) {
                    int value = picture.at(x, y);
                    sum += value;
                    least = Math.min(least, value);
                    most = Math.max(most, value);
                }
            }
            int at = row * blocks.columns + column;
            blocks.sum[at] = sum / ((bottom - row * BLOCK) * (right - column * BLOCK));
            blocks.count[at] = 1;
            blocks.least[at] = least;
            blocks.most[at] = most;
        }

        private boolean dark(int x, int y) {
            return picture.at(x, y) < thresholds[y / BLOCK * blocksWide + x / BLOCK];
        }

        List<Mark> marks() {
            List<Mark> marks = new ArrayList<>();
            for (int y = 0; y < picture.height() && marks.size() < MOST_MARKS; y += EVERY) {
                scan(y, marks);
            }
            return marks;
        }

        /** Five runs that end with a dark one may be a line through a mark. */
        private void scan(int y, List<Mark> marks) {
            int[] runs = new int[5];
            boolean dark = false;
            int length = 0;
            for (int x = 0; x <= picture.width(); x++) {
                boolean now = x < picture.width() && dark(x, y);
                if (now == dark) {
                    length++;
                    continue;
                }
                System.arraycopy(runs, 1, runs, 0, 4);
                runs[4] = length;
                // Grain makes such runs on many lines, and walking down through each of them costs more than the rest
                if (dark && isMark(runs) && isInked(x - runs[4] - runs[3] - runs[2], y, runs)) {
                    check(x - runs[4] - runs[3] - runs[2] / 2.0, y, marks);
                }
                dark = now;
                length = 1;
            }
        }

        private static boolean isMark(int[] runs) {
            int all = runs[0] + runs[1] + runs[2] + runs[3] + runs[4];
            double square = all / 7.0;
            double off = square / 2 + 0.3;
            return square >= 1.2
                    && square <= LARGEST_SQUARE
                    && runs[0] > 0
                    && Math.abs(runs[2] - 3 * square) < 3 * off
                    && Math.abs(runs[0] - square) < off
                    && Math.abs(runs[1] - square) < off
                    && Math.abs(runs[3] - square) < off
                    && Math.abs(runs[4] - square) < off;
        }

        /** It is one if the line down through its middle, and then the line across through that, say so too. */
        private void check(double x, int y, List<Mark> marks) {
            int[] down = through((int) x, y, 0, 1);
            if (!isMark(down)) {
                return;
            }
            int middle = y + (down[2] - 1) / 2 - above((int) x, y);
            int[] across = through((int) x, middle, 1, 0);
            if (!isMark(across) || !isInked(darkFrom((int) x, middle), middle, across)) {
                return;
            }
            double square = (length(down) + length(across)) / 14.0;
            Mark mark = new Mark(x, middle, square);
            if (marks.stream().noneMatch(other -> other.distance(mark) < 3 * square)) {
                marks.add(mark);
            }
        }

        /** Where the dark run begins that a place is in. */
        private int darkFrom(int x, int y) {
            int from = x;
            while (from > 0 && dark(from - 1, y)) {
                from--;
            }
            return from;
        }

        /** Whether the dark middle and the light ring on either side of it, on the line across, are as different as ink and paper. */
        private boolean isInked(int middle, int y, int[] runs) {
            double light = (double) (sum(middle - runs[1], runs[1], y) + sum(middle + runs[2], runs[3], y))
                    / (runs[1] + runs[3]);
            return light - (double) sum(middle, runs[2], y) / runs[2] >= LEAST_INK;
        }

        private int sum(int from, int length, int y) {
            int sum = 0;
            for (int x = from; x < from + length; x++) {
                sum += picture.at(x, y);
            }
            return sum;
        }

        private static int length(int[] runs) {
            return runs[0] + runs[1] + runs[2] + runs[3] + runs[4];
        }

        /** How far the dark middle goes on above this place. */
        private int above(int x, int y) {
            int up = 0;
            while (y - up - 1 >= 0 && dark(x, y - up - 1)) {
                up++;
            }
            return up;
        }

        /** The five runs on a line through a dark place: dark, light, dark, light, dark; zeros where it is cut off. */
        private int[] through(int x, int y, int stepX, int stepY) {
            int[] runs = new int[5];
            if (!inside(x, y) || !dark(x, y)) {
                return runs;
            }
            half(x, y, -stepX, -stepY, runs, 2, -1);
            half(x + stepX, y + stepY, stepX, stepY, runs, 2, 1);
            return runs;
        }

        private void half(int fromX, int fromY, int stepX, int stepY, int[] runs, int from, int towards) {
            int x = fromX;
            int y = fromY;
            boolean dark = true;
            for (int run = from; run >= 0 && run < runs.length; run += towards) {
                int most = 4 * LARGEST_SQUARE;
                while (inside(x, y) && dark(x, y) == dark && most-- > 0) {
                    runs[run]++;
                    x += stepX;
                    y += stepY;
                }
                dark = !dark;
            }
        }

        private boolean inside(int x, int y) {
            return x >= 0 && y >= 0 && x < picture.width() && y < picture.height();
        }
    }

    /** Sums of block means, and the extremes of blocks, first of each block alone, then of those around it. */
    private static final class Surroundings {

        private final int columns;
        private final int rows;
        private final int[] sum;
        private final int[] count;
        private final int[] least;
        private final int[] most;

        Surroundings(int columns, int rows) {
            this.columns = columns;
            this.rows = rows;
            this.sum = new int[columns * rows];
            this.count = new int[columns * rows];
            this.least = new int[columns * rows];
            this.most = new int[columns * rows];
        }

        /** Each with those beside it. */
        Surroundings across() {
            Surroundings wider = new Surroundings(columns, rows);
            for (int row = 0; row < rows; row++) {
                for (int column = 0; column < columns; column++) {
                    int from = Math.max(0, column - AROUND);
                    int to = Math.min(columns - 1, column + AROUND);
                    wider.gather(row * columns + column, this, row * columns + from, row * columns + to, 1);
                }
            }
            return wider;
        }

        /** Each with those above and below it. */
        Surroundings down() {
            Surroundings higher = new Surroundings(columns, rows);
            for (int row = 0; row < rows; row++) {
                int from = Math.max(0, row - AROUND) * columns;
                int to = Math.min(rows - 1, row + AROUND) * columns;
                for (int column = 0; column < columns; column++) {
                    higher.gather(row * columns + column, this, from + column, to + column, columns);
                }
            }
            return higher;
        }

        private void gather(int at, Surroundings source, int from, int to, int step) {
            int lowest = 255;
            int highest = 0;
            for (int other = from; other <= to; other += step) {
                sum[at] += source.sum[other];
                count[at] += source.count[other];
                lowest = Math.min(lowest, source.least[other]);
                highest = Math.max(highest, source.most[other]);
            }
            least[at] = lowest;
            most[at] = highest;
        }
    }
}
