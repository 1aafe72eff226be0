package vestibule.samples;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Writes the camera card of a morning with two patients: {@code card/DCIM/100OKULR/IMG_0001.JPG} and so on, and beside
 * the card {@code catalogue.tsv} with the truth about each file.
 *
 * <p>The camera started a new folder for the second patient and counted from one again, so file names repeat. A frame
 * of a patient card would be the first photograph of a {@link Sitting}.
 */
public final class Card {
    /** Name of the card's folder below the one given. */
    public static final String CARD = "card";

    /** Name of the listing beside the card. */
    public static final String CATALOGUE = "catalogue.tsv";

    /** Card file systems keep times in steps of two seconds. */
    private static final long TIME_STEP = 2;

    /**
     * Photographs of one patient in a row.
     *
     * @param folder name of the folder in DCIM
     */
    public record Sitting(String folder, List<SamplePhoto> photos) {
        public Sitting {
            photos = List.copyOf(photos);
        }
    }

    private Card() {}

    /** What the card holds. */
    public static List<Sitting> sittings() {
        return List.of(
                new Sitting(
                        "100OKULR",
                        photos(
                                "zoe-",
                                "face-front-rest-lips-closed",
                                "face-front-smile",
                                "face-profile-right-rest",
                                "teeth-front-occlusion",
                                "teeth-buccal-right-direct",
                                "teeth-buccal-left-direct",
                                "occlusal-maxillary-mirror",
                                "occlusal-mandibular-mirror",
                                "tooth-closeup")),
                new Sitting(
                        "101OKULR",
                        photos(
                                "hanako-",
                                "face-front-rest-lips-closed",
                                "face-front-smile",
                                "face-oblique-right-smile",
                                "teeth-front-occlusion",
                                "teeth-buccal-right-direct",
                                "teeth-buccal-left-direct",
                                "occlusal-maxillary-mirror",
                                "occlusal-mandibular-mirror",
                                "shade-tab")));
    }

    private static List<SamplePhoto> photos(String prefix, String... views) {
        return List.of(views).stream().map(view -> Samples.photo(prefix + view)).toList();
    }

    /**
     * Writes card and catalogue into a folder, which is made if it is not there. What is there already is
     * overwritten where the names are the same.
     *
     * @return the folder of the card itself
     */
    public static Path write(Path folder, PhotoSize size) throws IOException {
        Path card = folder.resolve(CARD);
        Map<String, SamplePhoto> files = new LinkedHashMap<>();
        for (Sitting sitting : sittings()) {
            Path images = Files.createDirectories(card.resolve("DCIM").resolve(sitting.folder()));
            int number = 1;
            for (SamplePhoto photo : sitting.photos()) {
                String name = String.format(Locale.ROOT, "IMG_%04d.JPG", number);
                Path file = images.resolve(name);
                Files.write(file, Samples.jpeg(photo, size));
                long seconds = photo.taken().toEpochSecond();
                Files.setLastModifiedTime(
                        file, FileTime.from(java.time.Instant.ofEpochSecond(seconds - seconds % TIME_STEP)));
                files.put(CARD + "/DCIM/" + sitting.folder() + "/" + name, photo);
                number++;
            }
        }
        Files.writeString(folder.resolve(CATALOGUE), Listing.of(files), StandardCharsets.UTF_8);
        return card;
    }
}
