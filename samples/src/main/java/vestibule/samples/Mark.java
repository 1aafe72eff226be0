package vestibule.samples;

import java.awt.Rectangle;
import java.awt.image.BufferedImage;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/** A coloured mark that sits on one known side of every invented patient, as it can be found again in samples. */
public enum Mark {
    /** The crown on 16 or 55. */
    GOLD {
        @Override
        boolean is(int r, int g, int b) {
            return r > 110 && g - b > 45 && r - g > 20 && g > 0.5 * r;
        }
    },
    /** The jewel on 12 or 52. */
    JEWEL {
        @Override
        boolean is(int r, int g, int b) {
            return g - r > 45 && g - b > 25;
        }
    },
    /** The filling in 36 or 75. */
    AMALGAM {
        @Override
        boolean is(int r, int g, int b) {
            return r > 45 && r < 185 && b >= r && b - r < 34 && Math.abs(g - r) < 14;
        }
    },
    /** The mark on the right cheek. */
    BIRTHMARK {
        @Override
        boolean is(int r, int g, int b) {
            return r > 35 && r < 112 && r - b > 15 && r - b < 70 && g < 0.75 * r && g > 0.4 * r;
        }

        @Override
        boolean fits(BufferedImage image, Rectangle box, double area, double red) {
            int least = 255;
            int most = 0;
            int gap = 4;
            int[][] around = {
                {box.x - gap, (int) box.getCenterY()},
                {box.x + box.width + gap, (int) box.getCenterY()},
                {(int) box.getCenterX(), box.y - gap},
                {(int) box.getCenterX(), box.y + box.height + gap}
            };
            for (int[] at : around) {
                int skin = (image.getRGB(at[0], at[1]) >> 16) & 255;
                least = Math.min(least, skin);
                most = Math.max(most, skin);
            }
            return area > 0.0006 && area < 0.004 && red < 0.62 * least && most - least < 55;
        }
    };

    /** Centre of a mark as shares of width and height, and its share of the area. */
    public record Found(double x, double y, double area) {
        /** How far towards an anatomical direction, 0 to 1, in a raster of this Patient Orientation. */
        public double towards(char letter, String orientation) {
            String rows = orientation.substring(0, orientation.indexOf('\\'));
            String columns = orientation.substring(orientation.indexOf('\\') + 1);
            if (rows.indexOf(letter) >= 0) {
                return x;
            }
            if (columns.indexOf(letter) >= 0) {
                return y;
            }
            char other = "LRPAHF".charAt("LRPAHF".indexOf(letter) ^ 1);
            if (rows.indexOf(other) >= 0) {
                return 1 - x;
            }
            if (columns.indexOf(other) >= 0) {
                return 1 - y;
            }
            throw new AssertionError(orientation + " does not run along " + letter);
        }
    }

    /** The caption and the skin at the edges are left out. */
    private static final double EDGE = 0.075;

    abstract boolean is(int r, int g, int b);

    /** The largest connected patch of the mark's colour that is compact, as a mark is. */
    public Optional<Found> find(BufferedImage image) {
        int width = image.getWidth();
        int height = image.getHeight();
        boolean[] seen = new boolean[width * height];
        Optional<Found> best = Optional.empty();
        int edge = (int) (Math.min(width, height) * EDGE);
        for (int y = edge; y < height - edge; y++) {
            for (int x = edge; x < width - edge; x++) {
                Optional<Found> patch = patch(image, seen, x, y, edge);
                if (patch.isPresent()
                        && (best.isEmpty() || patch.get().area() > best.get().area())) {
                    best = patch;
                }
            }
        }
        return best;
    }

    private Optional<Found> patch(BufferedImage image, boolean[] seen, int startX, int startY, int edge) {
        Deque<int[]> open = new ArrayDeque<>();
        visit(image, seen, startX, startY, edge, open);
        double sumX = 0;
        double sumY = 0;
        double sumRed = 0;
        int count = 0;
        Rectangle box = new Rectangle(startX, startY, 0, 0);
        while (!open.isEmpty()) {
            int[] at = open.pop();
            sumX += at[0] + 0.5;
            sumY += at[1] + 0.5;
            sumRed += (image.getRGB(at[0], at[1]) >> 16) & 255;
            count++;
            box.add(at[0], at[1]);
            visit(image, seen, at[0] + 1, at[1], edge, open);
            visit(image, seen, at[0] - 1, at[1], edge, open);
            visit(image, seen, at[0], at[1] + 1, edge, open);
            visit(image, seen, at[0], at[1] - 1, edge, open);
        }
        double area = count / ((double) image.getWidth() * image.getHeight());
        boolean compact = count > 0.45 * (box.width + 1) * (box.height + 1);
        return compact && area > 0.00015 && area < 0.04 && fits(image, box, area, sumRed / count)
                ? Optional.of(new Found(sumX / count / image.getWidth(), sumY / count / image.getHeight(), area))
                : Optional.empty();
    }

    /** Whether what lies around a patch is what should lie around this mark. */
    boolean fits(BufferedImage image, Rectangle box, double area, double red) {
        return true;
    }

    private void visit(BufferedImage image, boolean[] seen, int x, int y, int edge, Deque<int[]> open) {
        if (x < edge || y < edge || x >= image.getWidth() - edge || y >= image.getHeight() - edge) {
            return;
        }
        int at = y * image.getWidth() + x;
        int rgb = image.getRGB(x, y);
        if (!seen[at] && is((rgb >> 16) & 255, (rgb >> 8) & 255, rgb & 255)) {
            seen[at] = true;
            open.push(new int[] {x, y});
        }
    }
}
