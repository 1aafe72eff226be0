package vestibule.bridge.app;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.patient.PhotographedCard;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

/** Photographs of patient cards. */
final class CardPictures {

    private CardPictures() {}

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
