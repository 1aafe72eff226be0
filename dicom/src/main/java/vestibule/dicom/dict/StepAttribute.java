package vestibule.dicom.dict;

import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.data.Tag;

/**
 * What the standard asks of one attribute of a performed procedure step (PS3.4 Table F.7.2-1), from the committed table.
 *
 * @param tag its number
 * @param keyword its name without blanks
 * @param atCreation its type for the user of N-CREATE: 1, 1C, 2, 3
 * @param atChange its type for the user of N-SET; {@code no} if it is not set after creation
 * @param atEnd its type in a final state; empty if the standard names none
 * @param items the attributes of the items, if it is a sequence
 */
public record StepAttribute(
        Tag tag, String keyword, String atCreation, String atChange, String atEnd, List<StepAttribute> items) {

    private static final List<StepAttribute> ALL =
            below(Table.read("step.tsv", 6).rows(), 0);

    public StepAttribute {
        items = List.copyOf(items);
    }

    /** Every attribute the table names, sequences with what belongs into their items. */
    public static List<StepAttribute> all() {
        return ALL;
    }

    private static List<StepAttribute> below(List<String[]> rows, int depth) {
        List<StepAttribute> found = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            String[] row = rows.get(i);
            if (depth(row) == depth) {
                int end = i + 1;
                while (end < rows.size() && depth(rows.get(end)) > depth) {
                    end++;
                }
                List<StepAttribute> items = below(rows.subList(i + 1, end), depth + 1);
                found.add(new StepAttribute(tag(row[1]), row[2], row[3], row[4], row[5], items));
            }
        }
        return found;
    }

    private static int depth(String[] row) {
        return Integer.parseInt(row[0]);
    }

    private static Tag tag(String digits) {
        return Tag.of(Integer.parseInt(digits.substring(0, 4), 16), Integer.parseInt(digits.substring(4), 16));
    }
}
