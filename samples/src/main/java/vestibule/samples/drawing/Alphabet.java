package vestibule.samples.drawing;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.HashMap;
import java.util.Map;

/** Letters of straight strokes, so that no font of the machine gets into the pictures. */
final class Alphabet {
    /** For each letter strokes of x,y pairs on a grid 0 to 4 wide and 0 to 6 high, from the top left. */
    private static final Map<Character, String> STROKES = strokes();

    private Alphabet() {}

    private static Map<Character, String> strokes() {
        Map<Character, String> map = new HashMap<>();
        map.put('A', "06 20 46/14 34");
        map.put('B', "00 06 36 45 44 33 03/33 42 41 30 00");
        map.put('C', "41 30 10 01 05 16 36 45");
        map.put('D', "00 06 26 44 42 20 00");
        map.put('E', "40 00 06 46/03 33");
        map.put('F', "40 00 06/03 33");
        map.put('G', "41 30 10 01 05 16 36 45 43 23");
        map.put('H', "00 06/40 46/03 43");
        map.put('I', "10 30/20 26/16 36");
        map.put('L', "00 06 46");
        map.put('M', "06 00 23 40 46");
        map.put('N', "06 00 46 40");
        map.put('O', "10 30 41 45 36 16 05 01 10");
        map.put('P', "06 00 30 41 42 33 03");
        map.put('R', "06 00 30 41 42 33 03/23 46");
        map.put('S', "41 30 10 01 02 13 33 44 45 36 16 05");
        map.put('T', "00 40/20 26");
        map.put('U', "00 05 16 36 45 40");
        map.put('0', "10 30 41 45 36 16 05 01 10");
        map.put('1', "11 20 26/16 36");
        map.put('2', "01 10 30 41 42 06 46");
        map.put('3', "01 10 30 41 42 33 13/33 44 45 36 16 05");
        map.put('4', "36 30 04 44");
        map.put('5', "40 00 03 33 44 45 36 06");
        map.put('6', "40 20 02 05 16 36 45 44 33 03");
        map.put('7', "00 40 16");
        map.put('8', "13 02 01 10 30 41 42 33 13 04 05 16 36 45 44 33");
        map.put('9', "06 26 44 41 30 10 01 02 13 43");
        return map;
    }

    static double width(String text, double height) {
        return text.length() * height * 0.9 - height * 0.2;
    }

    /** Draws a line of text with its top left corner at x, y. */
    static void draw(Graphics2D graphics, String text, double x, double y, double height) {
        graphics.setStroke(new BasicStroke((float) (height / 7), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        double unit = height / 6;
        for (int i = 0; i < text.length(); i++) {
            String letter = STROKES.getOrDefault(text.charAt(i), "");
            Path2D path = new Path2D.Double();
            boolean down = false;
            for (int k = 0; k + 1 < letter.length(); k += 3) {
                double px = x + i * height * 0.9 + unit * (letter.charAt(k) - '0');
                double py = y + unit * (letter.charAt(k + 1) - '0');
                if (down) {
                    path.lineTo(px, py);
                } else {
                    path.moveTo(px, py);
                }
                down = k + 2 >= letter.length() || letter.charAt(k + 2) == ' ';
            }
            graphics.draw(path);
        }
    }
}
