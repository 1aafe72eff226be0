package vestibule.bridge.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import vestibule.dicom.jpeg.Turn;

@DisplayName("The contact sheet")
class ContactSheetTest {

    private static Card card(String name, Optional<Card.Directions> directions) {
        return new Card(
                name,
                Card.Standing.PROPOSED,
                Optional.of("Upper <b>occlusal</b> & \"mirror\""),
                "both sides",
                directions,
                List.of("teeth: 11 (upper right)"),
                Optional.of("accept it, or say which view it is"),
                Optional.of(new byte[] {1, 2, 3}));
    }

    private static String page(Card... cards) {
        return ContactSheet.html(
                "Sitting <1>",
                List.of("held back: <script>alert(1)</script>"),
                List.of(new Sitting(
                        Optional.of("Exempel Zoë"),
                        List.of("ID PG-0001 (PAINTED-GATE)", "born 1987-02-28"),
                        List.of("2026-03-12"),
                        List.of("Lower occlusal (mirror)"),
                        List.of("2025-03-01 Upper occlusal (mirror)"),
                        List.of(cards))));
    }

    @Test
    @DisplayName("needs nothing else and runs nothing: no address, no script, every foreign word escaped")
    void selfContained() {
        String page = page(card("a'b.JPG", Optional.of(new Card.Directions("L", "P"))));
        assertThat(page).doesNotContain("http:", "https:", "<script", "url(", "<link", "@import");
        assertThat(page).contains("default-src 'none'");
        assertThat(page).contains("Upper &lt;b&gt;occlusal&lt;/b&gt; &amp; &quot;mirror&quot;", "a&#39;b.JPG");
    }

    @Test
    @DisplayName("shows two identifiers, what is missing, what is proposed, and earlier photographs")
    void tells() {
        assertThat(page(card("a.JPG", Optional.empty())))
                .contains(
                        "ID PG-0001 (PAINTED-GATE) · born 1987-02-28",
                        "Lower occlusal (mirror)",
                        "proposal: to be confirmed",
                        "1 picture, 1 to be confirmed",
                        "2025-03-01 Upper occlusal (mirror)");
    }

    @Test
    @DisplayName("has the patient's directions beside the picture, and in words for who cannot see it")
    void marks() {
        String page = page(card("a.JPG", Optional.of(new Card.Directions("L", "P"))));
        assertThat(page)
                .contains(
                        "<span class=\"mark left side\" aria-hidden=\"true\">R</span>",
                        "<span class=\"mark right side\" aria-hidden=\"true\">L</span>",
                        "<span class=\"mark top\" aria-hidden=\"true\">A</span>",
                        "<span class=\"mark bottom\" aria-hidden=\"true\">P</span>",
                        "left edge R, right edge L, top A, bottom P");
        assertThat(page(card("a.JPG", Optional.empty()))).contains("directions not known");
    }

    /** Four quarters of different grey: 40, 100 above 160, 220. */
    private static byte[] quarters() throws IOException {
        BufferedImage image = new BufferedImage(64, 48, BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < 48; y++) {
            for (int x = 0; x < 64; x++) {
                int grey = 40 + (x < 32 ? 0 : 60) + (y < 24 ? 0 : 120);
                image.setRGB(x, y, grey * 0x10101);
            }
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(image, "jpeg", out);
        return out.toByteArray();
    }

    @ParameterizedTest
    @EnumSource(Turn.class)
    @DisplayName("turns small pictures as objects are turned")
    void turns(Turn turn) throws IOException {
        BufferedImage small = ImageIO.read(
                new ByteArrayInputStream(Thumbnail.of(quarters(), turn).orElseThrow()));
        assertThat(small.getWidth()).isEqualTo(turn.exchangesAxes() ? 48 : 64);
        // Reckoned without the code: which quarter comes to the top left, and which to the top right.
        int[] expected = switch (turn) {
            case NONE -> new int[] {40, 100};
            case FLIP_HORIZONTAL -> new int[] {100, 40};
            case FLIP_VERTICAL -> new int[] {160, 220};
            case ROTATE_180 -> new int[] {220, 160};
            case ROTATE_90 -> new int[] {160, 40};
            case ROTATE_270 -> new int[] {100, 220};
            case TRANSPOSE -> new int[] {40, 160};
            case TRANSVERSE -> new int[] {220, 100};
        };
        int w = small.getWidth();
        int h = small.getHeight();
        assertThat(small.getRGB(w / 4, h / 4) & 0xff).isBetween(expected[0] - 12, expected[0] + 12);
        assertThat(small.getRGB(3 * w / 4, h / 4) & 0xff).isBetween(expected[1] - 12, expected[1] + 12);
    }

    @Test
    @DisplayName("goes without a picture where the bytes are none")
    void noPicture() throws IOException {
        assertThat(Thumbnail.of(new byte[] {(byte) 0xff, (byte) 0xd8, 0, 0}, Turn.NONE))
                .isEmpty();
    }
}
