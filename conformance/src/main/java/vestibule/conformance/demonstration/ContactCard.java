package vestibule.conformance.demonstration;

import java.io.IOException;
import java.util.Base64;
import java.util.List;
import java.util.stream.Collectors;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;

/**
 * One object on the contact sheet.
 *
 * @param patient name and id
 * @param taken date and time of the picture
 * @param view the label of the view
 * @param side Image Laterality in words
 * @param shown the structures that are coded
 * @param orientation the two values of Patient Orientation, or none
 * @param uid SOP Instance UID
 * @param jpeg the stream, in Base64
 */
record ContactCard(
        String patient,
        String taken,
        String view,
        String side,
        String shown,
        List<String> orientation,
        String uid,
        String jpeg) {

    private static final int LARGEST = 64 << 20;

    ContactCard {
        orientation = List.copyOf(orientation);
    }

    static ContactCard of(DicomFile file) throws IOException {
        DataSet object = file.dataSet();
        Value pixels = object.find(Attributes.PIXEL_DATA)
                .orElseThrow(() -> new DicomFormatException(file.path() + " has no pixel data"))
                .value();
        if (!(pixels instanceof Value.Fragments fragments)
                || fragments.fragments().size() != 1) {
            throw new DicomFormatException(file.path() + " does not hold one JPEG stream");
        }
        return new ContactCard(
                object.text(Attributes.PATIENT_NAME).orElse("") + " · "
                        + object.text(Attributes.PATIENT_ID).orElse(""),
                object.text(Attributes.ACQUISITION_DATE_TIME).orElse("no time known"),
                object.text(Attributes.IMAGE_COMMENTS).orElse(""),
                side(object.text(Attributes.IMAGE_LATERALITY).orElse("")),
                object.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE).stream()
                        .flatMap(item -> item.text(Attributes.CODE_MEANING).stream())
                        .collect(Collectors.joining(", ")),
                object.texts(Attributes.PATIENT_ORIENTATION),
                object.text(Attributes.SOP_INSTANCE_UID).orElse(""),
                Base64.getEncoder().encodeToString(fragments.fragments().get(0).bytes(LARGEST)));
    }

    private static String side(String laterality) {
        return switch (laterality) {
            case "R" -> "patient's right";
            case "L" -> "patient's left";
            case "B" -> "both sides";
            case "U" -> "unpaired";
            default -> "side not said";
        };
    }

    String html() {
        StringBuilder html = new StringBuilder("<figure>\n<div class=\"frame\">");
        html.append("<img alt=\"%s\" src=\"data:image/jpeg;base64,%s\">".formatted(escaped(view), jpeg));
        if (orientation.size() == 2) {
            mark(html, "right", orientation.get(0));
            mark(html, "left", opposite(orientation.get(0)));
            mark(html, "bottom", orientation.get(1));
            mark(html, "top", opposite(orientation.get(1)));
        }
        return html.append("</div>\n<figcaption><div class=\"view\">%s</div><div>%s · %s</div><div>%s</div>"
                        .formatted(escaped(view), escaped(taken), escaped(side), escaped(shown)))
                .append("<div class=\"uid\">%s</div></figcaption>\n</figure>\n".formatted(escaped(uid)))
                .toString();
    }

    private static void mark(StringBuilder html, String edge, String letters) {
        html.append("<span class=\"mark %s\">%s</span>".formatted(edge, escaped(letters)));
    }

    /** Each letter turned round: the other end of the same axis. */
    static String opposite(String letters) {
        return letters.codePoints()
                .mapToObj(letter -> switch (letter) {
                    case 'R' -> "L";
                    case 'L' -> "R";
                    case 'A' -> "P";
                    case 'P' -> "A";
                    case 'H' -> "F";
                    case 'F' -> "H";
                    default -> Character.toString(letter);
                })
                .collect(Collectors.joining());
    }

    static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
