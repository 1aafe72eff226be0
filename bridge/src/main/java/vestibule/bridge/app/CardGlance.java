package vestibule.bridge.app;

import java.util.Optional;
import vestibule.bridge.intake.Glance;
import vestibule.bridge.patient.CardReader;
import vestibule.dicom.jpeg.HalfSize;

/** Tells the photographs that cannot be patient cards, which are most, from those that deciding has to look at. */
final class CardGlance implements Glance {

    @Override
    public Optional<String> at(HalfSize picture) {
        if (!picture.isFull()) {
            return Optional.empty();
        }
        return CardReader.glance(picture.width(), picture.height(), picture.samples())
                .map(ReadingText::write);
    }
}
