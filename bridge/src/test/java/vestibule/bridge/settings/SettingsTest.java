package vestibule.bridge.settings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.view.CodingProfile;

@DisplayName("The settings file")
class SettingsTest {

    @TempDir
    Path folder;

    private Settings read(String text) throws IOException, SettingsException {
        return Settings.read(Files.writeString(folder.resolve("vestibule.toml"), text));
    }

    @Test
    @DisplayName("names the practice, its zone, its coding and our title")
    void readsEveryKey() throws Exception {
        Settings settings = read("""
                [practice]
                name = "Practice of the Three Lindens"
                department = "Orthodontics"
                station = "ROOM 2"
                issuer = "LINDEN"
                zone = "Europe/Berlin"
                coding = "ortho"

                [network]
                calling-ae = "PHOTOS"
                """);
        assertThat(settings.practice().institution()).contains("Practice of the Three Lindens");
        assertThat(settings.practice().department()).contains("Orthodontics");
        assertThat(settings.practice().station()).contains("ROOM 2");
        assertThat(settings.practice().issuer()).contains("LINDEN");
        assertThat(settings.practice().zone()).contains(ZoneId.of("Europe/Berlin"));
        assertThat(settings.practice().coding()).isEqualTo(CodingProfile.ORTHO);
        assertThat(settings.callingAe()).contains("PHOTOS");
    }

    @Test
    @DisplayName("may be empty")
    void mayBeEmpty() throws Exception {
        assertThat(read("")).isEqualTo(Settings.NONE);
    }

    @Test
    @DisplayName("with several wrong values is refused with all of them, each with its line")
    void tellsAllProblemsAtOnce() {
        assertThatThrownBy(() -> read("""
                        [practice]
                        nam = "x"
                        zone = "Middle/Earth"
                        coding = 3
                        station = "A STATION NAME BEYOND SIXTEEN"
                        """))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 2")
                .hasMessageContaining("practice.nam is not known")
                .hasMessageContaining("line 3: practice.zone is \"Middle/Earth\"")
                .hasMessageContaining("line 4: practice.coding is no text in quotes")
                .hasMessageContaining("practice.station")
                .hasMessageContaining("1 to 16 characters");
    }

    @Test
    @DisplayName("that is no TOML is refused with line and column of the library")
    void refusesBrokenToml() {
        assertThatThrownBy(() -> read("[practice\nname = "))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 1");
    }
}
