package vestibule.dicom.jpeg;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

@DisplayName("The eight turns")
class TurnTest {
    /** A picture of two rows and three columns, rows separated by a stroke. */
    private static String applied(Turn turn, String picture) {
        String[] rows = picture.split("/", -1);
        String result = picture;
        if (turn.exchangesAxes()) {
            StringBuilder exchanged = new StringBuilder();
            for (int column = 0; column < rows[0].length(); column++) {
                exchanged.append(column == 0 ? "" : "/");
                for (String row : rows) {
                    exchanged.append(row.charAt(column));
                }
            }
            result = exchanged.toString();
        }
        String reversedAll = new StringBuilder(result).reverse().toString();
        if (turn.reversesColumns() && turn.reversesRows()) {
            return reversedAll;
        }
        if (turn.reversesRows()) {
            return String.join("/", reversed(List.of(result.split("/", -1))));
        }
        return turn.reversesColumns() ? String.join("/", reversed(List.of(reversedAll.split("/", -1)))) : result;
    }

    private static List<String> reversed(List<String> rows) {
        return IntStream.range(0, rows.size())
                .mapToObj(index -> rows.get(rows.size() - 1 - index))
                .toList();
    }

    @ParameterizedTest
    @CsvSource({
        "NONE, abc/def",
        "FLIP_HORIZONTAL, cba/fed",
        "FLIP_VERTICAL, def/abc",
        "ROTATE_180, fed/cba",
        "TRANSPOSE, ad/be/cf",
        "ROTATE_90, da/eb/fc",
        "ROTATE_270, cf/be/ad",
        "TRANSVERSE, fc/eb/da"
    })
    @DisplayName("do to a picture what their names say")
    void names(Turn turn, String outcome) {
        assertThat(applied(turn, "abc/def")).isEqualTo(outcome);
    }

    @Test
    @DisplayName("compose as they do one after the other")
    void composition() {
        for (Turn first : Turn.values()) {
            for (Turn second : Turn.values()) {
                assertThat(applied(first.then(second), "abc/def"))
                        .as(first + " then " + second)
                        .isEqualTo(applied(second, applied(first, "abc/def")));
            }
        }
    }

    @ParameterizedTest
    @EnumSource(Turn.class)
    @DisplayName("have an inverse each")
    void inverses(Turn turn) {
        assertThat(turn.then(turn.inverse())).isEqualTo(Turn.NONE);
        assertThat(turn.inverse().then(turn)).isEqualTo(Turn.NONE);
    }

    @Test
    @DisplayName("are mirror images in four cases, and parity adds up")
    void parity() {
        assertThat(List.of(Turn.values()))
                .filteredOn(Turn::mirrors)
                .containsExactly(Turn.FLIP_HORIZONTAL, Turn.FLIP_VERTICAL, Turn.TRANSPOSE, Turn.TRANSVERSE);
        for (Turn first : Turn.values()) {
            for (Turn second : Turn.values()) {
                assertThat(first.then(second).mirrors()).isEqualTo(first.mirrors() ^ second.mirrors());
            }
        }
    }

    /** Meaning of the values: Exif 2.32, 4.6.4 A; there they say where row 0 and column 0 are in the scene. */
    @ParameterizedTest
    @CsvSource({
        "1, NONE",
        "2, FLIP_HORIZONTAL",
        "3, ROTATE_180",
        "4, FLIP_VERTICAL",
        "5, TRANSPOSE",
        "6, ROTATE_90",
        "7, TRANSVERSE",
        "8, ROTATE_270"
    })
    @DisplayName("put right every Exif orientation, and no other value")
    void exif(int value, Turn turn) {
        assertThat(Turn.uprightFromExif(value)).contains(turn);
        assertThat(Turn.uprightFromExif(value + 8)).isEmpty();
        assertThat(Turn.uprightFromExif(value - 8)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "FLIP_HORIZONTAL, 0x22, 33, 17, 1, 0",
        "FLIP_VERTICAL, 0x22, 33, 17, 0, 1",
        "ROTATE_180, 0x22, 33, 17, 1, 1",
        "TRANSPOSE, 0x22, 33, 17, 0, 0",
        "ROTATE_90, 0x22, 33, 17, 0, 1",
        "ROTATE_270, 0x22, 33, 17, 1, 0",
        "TRANSVERSE, 0x22, 33, 17, 1, 1",
        "FLIP_HORIZONTAL, 0x21, 31, 31, 15, 0",
        "FLIP_VERTICAL, 0x21, 31, 31, 0, 7",
        "FLIP_HORIZONTAL, 0x11, 31, 31, 7, 0",
        "FLIP_HORIZONTAL, 0x41, 95, 31, 31, 0"
    })
    @DisplayName("lose less than one unit, at the edge that would come first")
    void edges(Turn turn, String luminance, int width, int height, int columns, int rows) {
        int factors = Integer.decode(luminance);
        Frame frame = new Frame(
                FrameType.BASELINE,
                8,
                height,
                width,
                List.of(
                        new Component(1, factors >> 4, factors & 0xF, 0),
                        new Component(2, 1, 1, 0),
                        new Component(3, 1, 1, 0)));

        assertThat(turn.edgeLoss(frame)).isEqualTo(new EdgeLoss(columns, rows));
    }

    @Test
    @DisplayName("name their loss in words")
    void lossInWords() {
        assertThat(new EdgeLoss(0, 0).words()).isEqualTo("nothing");
        assertThat(new EdgeLoss(1, 0).words()).isEqualTo("1 column at the right edge");
        assertThat(new EdgeLoss(8, 3).words()).isEqualTo("8 columns at the right edge and 3 rows at the bottom edge");
    }
}
