package vestibule.bridge.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("What camera and room are called in settings")
class CameraOrRoomTest {

    private static final List<String> NAMES =
            CameraOrRoom.names(List.of("C2007781", "Okulara C2"), "/srv/Room 2/card/PG-0001/IMG_0001.JPG");

    @Test
    @DisplayName(
            "serial number and model come first, then each folder by path and name, the innermost first, never the file")
    void order() {
        assertThat(NAMES)
                .containsExactly(
                        "C2007781",
                        "Okulara C2",
                        "/srv/Room 2/card/PG-0001",
                        "PG-0001",
                        "/srv/Room 2/card",
                        "card",
                        "/srv/Room 2",
                        "Room 2",
                        "/srv",
                        "srv");
        assertThat(CameraOrRoom.names(List.of(), "IMG_0001.JPG")).isEmpty();
        assertThat(CameraOrRoom.names(List.of(), "C:\\photos\\x.JPG"))
                .containsExactly("C:/photos", "photos", "C:", "C:");
    }

    @ParameterizedTest
    @DisplayName("a key is known however it is written: small letters, blanks around it, the stroke of a path")
    @CsvSource({
        "c2007781",
        "OKULARA C2",
        "ROOM 2",
        "'  room 2 '",
        "/srv/room 2",
        "/srv/Room 2/",
        "\\srv\\Room 2",
        "'SRV'"
    })
    void known(String key) {
        assertThat(CameraOrRoom.told(Map.of(key, 1), NAMES)).contains(1);
    }

    @ParameterizedTest
    @DisplayName("a part of a name, two folders at once and the file itself are no key")
    @CsvSource({"ROOM", "ROOM 22", "C2", "Room 2/card", "IMG_0001.JPG", "/", "''"})
    void unknown(String key) {
        assertThat(CameraOrRoom.told(Map.of(key, 1), NAMES)).isEmpty();
    }

    @Test
    @DisplayName("an accent is the same in both codings")
    void accents() {
        List<String> names = CameraOrRoom.names(List.of(), "/Su\u0308d/x.JPG");
        assertThat(CameraOrRoom.told(Map.of("S\u00FCd", 1), names)).contains(1);
    }

    @Test
    @DisplayName("the more telling name counts, and a path more than the name alone")
    void moreTelling() {
        assertThat(CameraOrRoom.told(Map.of("room 2", 1, "okulara c2", 2, "c2007781", 3), NAMES))
                .contains(3);
        assertThat(CameraOrRoom.told(Map.of("room 2", 1, "card", 2), NAMES)).contains(2);
        assertThat(CameraOrRoom.told(Map.of("room 2", 1, "/srv/room 2", 2), NAMES))
                .contains(2);
    }

    @Test
    @DisplayName("two keys that name the same are told where they say different things")
    void contradictions() {
        assertThat(CameraOrRoom.contradictions("mirror-of", Map.of("ROOM 2", 1, "room 2 ", 1)))
                .isEmpty();
        assertThat(CameraOrRoom.contradictions("mirror-of", Map.of("ROOM 2", 1, "room 2 ", 2, "ROOM 3", 3)))
                .singleElement()
                .asString()
                .contains("\"ROOM 2\", \"room 2 \"");
    }
}
