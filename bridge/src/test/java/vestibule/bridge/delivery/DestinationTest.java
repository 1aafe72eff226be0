package vestibule.bridge.delivery;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("An archive named by URL")
class DestinationTest {

    @ParameterizedTest(name = "{0}")
    @DisplayName("has host, port and called AE title")
    @CsvSource({
        "dicom://127.0.0.1:11112/ARCHIVE, 127.0.0.1, 11112, ARCHIVE",
        "dicom://archive.example:104/MAIN_STORE, archive.example, 104, MAIN_STORE",
        "dicom://[::1]:4242/A, ::1, 4242, A",
    })
    void parts(String url, String host, int port, String title) throws DestinationException {
        Destination destination = Destination.parse(url);
        assertThat(destination.host()).isEqualTo(host);
        assertThat(destination.port()).isEqualTo(port);
        assertThat(destination.calledAe()).isEqualTo(title);
        assertThat(destination.isSecure()).isEqualTo(url.startsWith("dicoms:"));
        assertThat(destination).hasToString(url);
    }

    @ParameterizedTest(name = "{0}")
    @DisplayName("of another form is refused with what was expected")
    @CsvSource({
        "archive.example:104/A, expected dicom://HOST:PORT/CALLED_AE",
        "dicom://archive.example/A, expected dicom://HOST:PORT/CALLED_AE",
        "dicom://archive.example:0/A, expected 1 to 65535",
        "dicom://archive.example:70000/A, expected 1 to 65535",
        "dicom://archive.example:104/A_TITLE_OF_SEVENTEEN, expected 1 to 16",
        "http://archive.example:80/A, expected dicom://",
    })
    void refused(String url, String expected) {
        assertThatThrownBy(() -> Destination.parse(url))
                .isInstanceOf(DestinationException.class)
                .hasMessageContaining(expected);
    }
}
