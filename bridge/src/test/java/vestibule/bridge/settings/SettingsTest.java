package vestibule.bridge.settings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
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
    @DisplayName("may begin with a byte order mark, which moves no line")
    void byteOrderMark() throws Exception {
        assertThat(read("\uFEFF[network]\ncalling-ae = \"PHOTOS\"\n").callingAe())
                .contains("PHOTOS");
        assertThatThrownBy(() -> read("\uFEFF[network]\ncalling-ae = 5\n"))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 2");
    }

    @Test
    @DisplayName("refuses the words that put every mirror view right by one flip, and says what to write instead")
    void oneFlipForAllViews() {
        assertThatThrownBy(() -> read("""
                        [views]
                        mirror = "front-transpose"
                        [views.mirror-of]
                        "OKULAR R" = "behind-transverse"
                        """))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 2")
                .hasMessageContaining("front-rolled-left does for upper and lower arches what it did")
                .hasMessageContaining("and front-rolled-right for buccal views")
                .hasMessageContaining("behind-rolled-left does for upper and lower arches what it did");
        assertThatThrownBy(() -> read("[views]\nmirror = \"front-rolled\"\n"))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("-rolled-right or -rolled-left")
                .hasMessageNotContaining("arches");
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
                .hasMessageContaining(
                        "the key practice.nam is not known; close to it is practice.name, and in docs administrator.md")
                .hasMessageContaining("line 3: practice.zone is \"Middle/Earth\"")
                .hasMessageContaining("line 4: practice.coding is no text in quotes")
                .hasMessageContaining("practice.station")
                .hasMessageContaining("1 to 16 characters");
    }

    @ParameterizedTest
    @CsvSource({
        "practice.nam, practice.name",
        "practice.calling-ae, network.calling-ae",
        "url, archive.url",
        "sets.owm.recall.views, sets.own.NAME",
        "sets.own, sets.own.NAME",
        "pictures.ink, pictures.inks"
    })
    @DisplayName("with a wrong key is told the nearest, and where all stand, in one short sentence")
    void nearestKey(String wrong, String nearest) {
        assertThatThrownBy(() -> read(wrong + " = \"x\""))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining(
                        "line 1: the key %s is not known; close to it is %s, and".formatted(wrong, nearest))
                .extracting(refusal -> String.valueOf(refusal.getMessage()).length())
                .asInstanceOf(InstanceOfAssertFactories.INTEGER)
                .isLessThan(400);
    }

    @Test
    @DisplayName("with a set of views that there are not is refused with line, key and view")
    void unknownViewInSet() {
        assertThatThrownBy(() -> read("""
                        [sets.own.mine]
                        name = "Mine"
                        views = ["teeth-front-occlusion", "teeth-nowhere, optional"]
                        """))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 3: sets.own.mine.views: the set mine names the view teeth-nowhere")
                .hasMessageContaining("vestibule views lists all");
        assertThatThrownBy(() -> read("sets.own.mine.views = [\"Front View\"]"))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 1: sets.own.mine.views: an entry is \"Front View\", expected a view");
        assertThatThrownBy(() -> read("[sets.own.mine]\nname = \"Mine\""))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 1: sets.own.mine.views: the set mine has no views");
    }

    @ParameterizedTest
    @DisplayName("with a set that is no table, or is called oddly, is refused with its line")
    @ValueSource(strings = {"foo = 1", "'a\"b' = 1", "'a.b' = { views = ['x'] }", "'a\"b' = { views = ['x'] }"})
    void oddSets(String line) {
        assertThatThrownBy(() -> read("[sets.own]\n" + line + "\n"))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 2: sets.own.");
    }

    @Test
    @DisplayName("with words of any length is refused in short sentences")
    void longWords() {
        String word = "x".repeat(300);
        assertThatThrownBy(() -> read("""
                        [sets.own.%1$s]
                        views = ["%1$s"]
                        [cameras.clocks]
                        "%1$s" = 5
                        """.formatted(word)))
                .isInstanceOf(SettingsException.class)
                .satisfies(refused -> assertThat(
                                String.valueOf(refused.getMessage()).split("; "))
                        .hasSizeGreaterThan(1)
                        .allSatisfy(problem -> assertThat(problem.replace(folder.toString(), ""))
                                .hasSizeLessThan(400)));
    }

    @Test
    @DisplayName("has no key that the guide does not show")
    void everyKeyIsShown() throws IOException {
        StringBuilder guide = new StringBuilder();
        for (String page : SettingsReader.PAGES) {
            guide.append(Files.readString(Path.of("../docs").resolve(page)));
        }
        assertThat(Settings.keys())
                .allSatisfy(key -> assertThat(guide)
                        .contains(
                                key.endsWith(".*")
                                        ? key.substring(0, key.length() - 2)
                                        : key.substring(key.indexOf('.') + 1)));
    }

    @Test
    @DisplayName("that is no TOML is refused with line and column of the library")
    void refusesBrokenToml() {
        assertThatThrownBy(() -> read("[practice\nname = "))
                .isInstanceOf(SettingsException.class)
                .hasMessageContaining("line 1");
    }
}
