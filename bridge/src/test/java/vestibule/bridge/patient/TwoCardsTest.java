package vestibule.bridge.patient;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.PersonName;

@DisplayName("Two patient cards in one frame")
class TwoCardsTest {

    private static final Patient ZOE = new Patient(
            "PG-0001",
            Optional.of("PAINTED-GATE"),
            PersonName.parse("Exempel^Zoe").orElseThrow(),
            Optional.of(LocalDate.of(1987, 2, 28)),
            Optional.of("F"));

    private static final int HALF = 1_600;
    private static final int HEIGHT = 1_200;

    @TempDir
    Path folder;

    private final BufferedImage frame = new BufferedImage(2 * HALF, HEIGHT, BufferedImage.TYPE_INT_RGB);

    private void lay(Patient patient, int left, double share, double degrees) throws IOException {
        byte[] half = PhotographedCard.jpeg(patient, HALF, HEIGHT, degrees, share, false, left + 1);
        draw(ImageIO.read(new ByteArrayInputStream(half)), left);
    }

    private void draw(BufferedImage half, int left) {
        Graphics2D pen = frame.createGraphics();
        pen.drawImage(half, left, 0, null);
        pen.dispose();
    }

    /** A code that is no card, as on a box of gloves. */
    private void layCode(String text, int left) throws Exception {
        BitMatrix code = new QRCodeWriter().encode(text, BarcodeFormat.QR_CODE, 500, 500);
        BufferedImage half = new BufferedImage(HALF, HEIGHT, BufferedImage.TYPE_INT_RGB);
        Graphics2D pen = half.createGraphics();
        pen.setColor(new Color(0x90, 0xA0, 0xA8));
        pen.fillRect(0, 0, HALF, HEIGHT);
        pen.dispose();
        for (int y = 0; y < code.getHeight(); y++) {
            for (int x = 0; x < code.getWidth(); x++) {
                half.setRGB(400 + x, 300 + y, code.get(x, y) ? 0x202020 : 0xF0F0F0);
            }
        }
        draw(half, left);
    }

    private CardReader.Reading read() throws IOException {
        Path file = folder.resolve("frame.jpg");
        ImageIO.write(frame, "jpg", file.toFile());
        return new CardReader().read(file);
    }

    @ParameterizedTest(name = "code of {0} at {2} degrees beside one of {1} at {3}")
    @DisplayName("cannot be read, however they lie, so that neither is taken for the one that is meant")
    @CsvSource({"0.6, 0.6, 12, 5", "0.6, 0.35, 12, 80", "0.35, 0.6, 3, 200", "0.5, 0.5, 90, 10", "0.7, 0.25, 0, 0"})
    void twoPatients(double left, double right, double leftDegrees, double rightDegrees) throws IOException {
        lay(CardReaderTest.HANAKO, 0, left, leftDegrees);
        lay(ZOE, HALF, right, rightDegrees);
        assertThat(read()).isInstanceOf(CardReader.Unreadable.class);
    }

    @Test
    @DisplayName("cannot be read where one of them is cropped, so that two of its corner marks are left")
    void oneCropped() throws IOException {
        lay(CardReaderTest.HANAKO, 0, 0.6, 0);
        lay(ZOE, HALF, 0.6, 0);
        BufferedImage right = frame.getSubimage(HALF, 0, HALF, HEIGHT);
        int middle = (int) (0.47 * HEIGHT);
        Graphics2D pen = right.createGraphics();
        pen.setColor(new Color(0x55, 0x70, 0x80));
        pen.fillRect(0, middle + 80, HALF, HEIGHT - middle - 80);
        pen.dispose();
        assertThat(read()).isInstanceOf(CardReader.Unreadable.class);
    }

    @Test
    @DisplayName("are one card if they are of one patient, as where a sheet has it twice")
    void onePatientTwice() throws IOException {
        lay(ZOE, 0, 0.35, 3);
        lay(ZOE, HALF, 0.6, 200);
        assertThat(read())
                .isInstanceOfSatisfying(
                        CardReader.Card.class,
                        card -> assertThat(card.who().id()).contains("PG-0001"));
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName(
            "a code that is too long for an id is nothing beside a card either, one that may be an id is a second one")
    @CsvSource({
        "https://gloves.example/a-long-way-to-a-page-that-tells-how-to-put-them-on-and-off, false",
        "PG-0003, true"
    })
    void anotherCode(String text, boolean asks) throws Exception {
        layCode(text, 0);
        lay(ZOE, HALF, 0.5, 5);
        assertThat(read()).isInstanceOf(asks ? CardReader.Unreadable.class : CardReader.Card.class);
    }
}
