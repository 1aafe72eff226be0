package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("A room of which the settings say how pictures are taken there")
class RoomSettingsTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String UPPER = "occlusal-maxillary-mirror";

    @TempDir
    Path folder;

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private Path photograph(String name) throws IOException {
        Path file = folder.resolve("card").resolve(name);
        Files.createDirectories(file.getParent());
        return Files.write(file, Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
    }

    /** Each key says "behind", and what it says nothing of is taken from the front. */
    private void settings(String... keys) throws IOException {
        StringBuilder rooms = new StringBuilder();
        for (String table : List.of("mirror-of", "direct-of")) {
            rooms.append("[views.%s]%n".formatted(table));
            Stream.of(keys).forEach(key -> rooms.append("'%s' = \"behind\"%n".formatted(key)));
        }
        more("mirror = \"front\"\n" + rooms);
    }

    private void more(String views) throws IOException {
        practice().settings("""
                [practice]
                station = "ROOM 2"
                [intake]
                settle = "1 ms"
                [patients]
                names = ["*/{id}/*", "{id}/*"]
                day-list = '%s'
                ask-archive = false
                [pictures]
                keep-raw = false
                edge = "trim"
                [views]
                %s
                """.formatted(practice().dayList(), views));
    }

    /** What the archive's one object says of how its picture was taken, once the card was taken in and delivered. */
    private String served() throws IOException {
        try (EmbeddedArchive archive = PracticeFolder.archive(folder)) {
            practice().intake(WORKSHOP, CLOCK);
            Ran served = practice().serve(WORKSHOP, CLOCK, archive.port());
            assertThat(served.exit()).as(served.out() + served.err()).isZero();
            try (Stream<Path> files = Files.walk(folder.resolve("archive"))) {
                return taken(files.filter(file -> file.toString().endsWith(".dcm"))
                        .findFirst()
                        .orElseThrow());
            }
        }
    }

    private String wrapped(Path photo, String view) throws IOException {
        Path out = folder.resolve("wrapped.dcm");
        Ran ran = Ran.vestibule(
                "wrap",
                photo.toString(),
                "--out",
                out.toString(),
                "--view",
                view,
                "--patient-id",
                "PG-0001",
                "--patient-name",
                "Exempel^Zoe",
                "--edge",
                "trim",
                "--config",
                folder.resolve("vestibule.toml").toString());
        assertThat(ran.exit()).as(ran.err()).isZero();
        return taken(out);
    }

    private static String taken(Path object) throws IOException {
        DataSet read = DicomFile.read(object).dataSet();
        return read.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION)
                .orElse("")
                .replaceAll(".*capture=([a-z-]+).*", "$1");
    }

    @ParameterizedTest(name = "{0}: {1}")
    @DisplayName("counts for what lies in a folder of that name, in the service and with wrap")
    @CsvSource({
        "ROOM 2, anterior-maxillary-front, direct-behind",
        "ROOM 2, occlusal-maxillary-mirror, mirror-behind",
        "' room 2', occlusal-maxillary-mirror, mirror-behind",
        "CARD, occlusal-maxillary-mirror, mirror-behind",
        "SOURCE/, occlusal-maxillary-mirror, mirror-behind",
        "SOURCE/Room 2, anterior-maxillary-front, direct-behind",
        "ABOVE, occlusal-maxillary-mirror, mirror-behind",
        "okulara c2, occlusal-maxillary-mirror, mirror-behind",
    })
    void known(String key, String view, String capture) throws IOException {
        Path photo = photograph("ROOM 2/PG-0001/IMG_0001_" + view + ".JPG");
        settings(key.replace("SOURCE", folder.resolve("card").toRealPath().toString())
                .replace("ABOVE", folder.toRealPath().toString()));
        assertThat(wrapped(photo, view)).isEqualTo(capture);
        assertThat(served()).isEqualTo(capture);
    }

    @Test
    @DisplayName("counts for nothing else, though the practice's station is called so")
    void elsewhere() throws IOException {
        Path photo = photograph("ROOM 22/PG-0001/IMG_0001_" + UPPER + ".JPG");
        settings("ROOM 2");
        assertThat(wrapped(photo, UPPER)).isEqualTo("mirror-front");
        assertThat(served()).isEqualTo("mirror-front");
    }

    @Test
    @DisplayName("asks where a copy lies in another room, until a person says the capture")
    void copies() throws IOException {
        photograph("ROOM 2/PG-0001/IMG_0001_" + UPPER + ".JPG");
        photograph("ROOM 1/PG-0001/IMG_0001_" + UPPER + ".JPG");
        more("mirror = \"front\"\n[views.mirror-of]\n\"ROOM 1\" = \"front\"\n\"ROOM 2\" = \"behind\"");
        assertThat(practice().intake(WORKSHOP, CLOCK).out())
                .contains("view-contradiction", "folders")
                .doesNotContain("Exempel");
        Ran settled = practice()
                .run(new SettleCommand(WORKSHOP, CLOCK), "IMG_0001_" + UPPER + ".JPG", "--capture", "mirror-behind");
        assertThat(settled.exit()).as(settled.out() + settled.err()).isZero();
        assertThat(served()).isEqualTo("mirror-behind");
    }

    @Test
    @DisplayName("asks nothing where a copy lies in a folder of which nothing is said")
    void copyElsewhere() throws IOException {
        photograph("ROOM 2/PG-0001/IMG_0001_" + UPPER + ".JPG");
        photograph("BACKUP/PG-0001/IMG_0001_" + UPPER + ".JPG");
        settings("ROOM 2");
        assertThat(served()).isEqualTo("mirror-behind");
    }

    @Test
    @DisplayName("is refused where it stands in the settings twice and says different things")
    void twice() throws IOException {
        Path photo = photograph("ROOM 2/PG-0001/IMG_0001_" + UPPER + ".JPG");
        more("[views.mirror-of]\n\"ROOM 2\" = \"front\"\n\"Room 2\" = \"behind\"");
        Ran ran = practice().run(new StatusCommand(CLOCK));
        assertThat(ran.exit()).isEqualTo(78);
        assertThat(ran.err()).contains("mirror-of", "\"ROOM 2\", \"Room 2\"");
        assertThat(photo).exists();
    }
}
