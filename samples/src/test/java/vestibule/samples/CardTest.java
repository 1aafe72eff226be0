package vestibule.samples;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("The camera card of the demonstration")
class CardTest {
    @TempDir
    static Path folder;

    @BeforeAll
    static void write() throws IOException {
        Card.write(folder, PhotoSize.THUMBNAIL);
    }

    private static List<Path> files() throws IOException {
        try (Stream<Path> files = Files.walk(folder.resolve("card"))) {
            return files.filter(Files::isRegularFile).sorted().toList();
        }
    }

    private static List<List<String>> rows() throws IOException {
        return Files.readAllLines(folder.resolve("catalogue.tsv")).stream()
                .skip(1)
                .map(line -> List.of(line.split("\t", -1)))
                .toList();
    }

    @Test
    void holdsOnlyPhotographsWhichTheCatalogueBesideItNames() throws IOException {
        List<String> onCard = files().stream()
                .map(f -> folder.relativize(f).toString().replace('\\', '/'))
                .toList();

        assertThat(rows()).extracting(row -> row.get(0)).containsExactlyElementsOf(onCard);
    }

    @Test
    void repeatsFileNamesInTheSecondFolder() throws IOException {
        assertThat(files())
                .extracting(f -> f.getParent().getFileName() + "/" + f.getFileName())
                .contains("100OKULR/IMG_0001.JPG", "101OKULR/IMG_0001.JPG");
    }

    @Test
    void holdsTwoPatientsWithMirrorsFromInFrontAndFromBehindTheHead() throws IOException {
        assertThat(rows()).extracting(row -> row.get(2)).containsOnly("PG-0001", "PG-0005");
        assertThat(rows())
                .filteredOn(row -> row.get(7).startsWith("occlusal-"))
                .extracting(row -> row.get(2) + " " + row.get(8))
                .containsOnly("PG-0001 mirror-front", "PG-0005 mirror-behind");
    }

    @Test
    void holdsOneFaceTurnedEachWay() throws IOException {
        assertThat(rows())
                .extracting(row -> row.get(9))
                .containsOnlyOnce("6", "8")
                .contains("1");
    }

    @Test
    void everyFileIsTheOneTheCatalogueMeans() throws IOException {
        for (List<String> row : rows()) {
            SamplePhoto photo = Samples.photo(row.get(1));
            Path file = folder.resolve(row.get(0));

            assertThat(row).hasSize(15);
            assertThat(Files.readAllBytes(file)).as(row.get(0)).isEqualTo(Samples.jpeg(photo, PhotoSize.THUMBNAIL));
            assertThat(Files.getLastModifiedTime(file).toInstant())
                    .isBetween(
                            photo.taken().toInstant().minusSeconds(2),
                            photo.taken().toInstant());
            assertThat(row.get(12)).isEqualTo(photo.storedOrientation());
            assertThat(row.get(13)).isEqualTo(photo.finalOrientation());
        }
    }
}
