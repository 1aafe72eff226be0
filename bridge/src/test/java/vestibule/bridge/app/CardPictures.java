package vestibule.bridge.app;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.PhotographedCard;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

/** Photographs of patient cards. */
final class CardPictures {

    private static final Pattern MOMENT = Pattern.compile("\\d{4}:\\d\\d:\\d\\d \\d\\d:\\d\\d:\\d\\d");

    private CardPictures() {}

    /** A picture with that moment in the camera's notes, in the place of the one that was there. */
    static byte[] taken(byte[] picture, LocalDateTime moment) {
        byte[] dated = picture.clone();
        byte[] text = DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT)
                .format(moment)
                .getBytes(StandardCharsets.US_ASCII);
        Matcher matcher = MOMENT.matcher(new String(picture, StandardCharsets.ISO_8859_1));
        while (matcher.find()) {
            System.arraycopy(text, 0, dated, matcher.start(), text.length);
        }
        return dated;
    }

    /** A card with the camera's notes of a sample photograph, so that it is of the same camera and moment. */
    static byte[] like(String photograph, Patient patient, boolean mirrored) throws IOException {
        byte[] card = PhotographedCard.jpeg(patient, 1_600, 1_200, 12, 0.6, mirrored, 1);
        byte[] sample = Samples.jpeg(Samples.photo(photograph), PhotoSize.THUMBNAIL);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(card, 0, 2);
        int at = 2;
        while ((sample[at + 1] & 0xFF) != 0xE1) {
            at += 2 + ((sample[at + 2] & 0xFF) << 8 | (sample[at + 3] & 0xFF));
        }
        out.write(sample, at, 2 + ((sample[at + 2] & 0xFF) << 8 | (sample[at + 3] & 0xFF)));
        out.write(card, 2, card.length - 2);
        return out.toByteArray();
    }
}
