package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;
import vestibule.conformance.peer.Dciodvfy;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.validator.ObjectReport;
import vestibule.validator.Profile;
import vestibule.validator.Report;
import vestibule.validator.Severity;
import vestibule.validator.Validator;

/**
 * Good objects, made by the command as a practice makes them: each view of {@code vestibule views} in each capture it may be taken by,
 * pictures in colour, in grey and coded in RGB, names in four scripts; of every picture that had to be put right also the one as recorded.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@DisplayName("Objects of every view")
class EveryViewTest {

    private static final long SEED = Long.getLong("vestibule.seed", 20261125L);
    private static final int WIDTH = 96;
    private static final int HEIGHT = 64;
    private static final String NO_LATERALITY = "</Laterality(0020,0060)> - Missing attribute for Type 2C Conditional";

    /** What libjpeg-turbo's compressor is told, for each kind of picture. */
    private static final Map<String, List<String>> PICTURES = pictures();

    /** Invented patients: the name, its script, and whether a person of that name is of which sex. */
    private record Person(String script, String id, String name, String birth, String sex) {}

    private static final List<Person> PEOPLE = List.of(
            new Person("Latin with accents", "EV-1", "Dvořáčková-Çelik^Žofie^Ångström^^MDDr.", "1987-04-12", "F"),
            new Person("Cyrillic", "EV-2", "Выдуманная^Юлия", "1990-11-30", "F"),
            new Person("Greek", "EV-3", "Επινοημένος^Ιωάννης", "1971-02-28", "M"),
            new Person("Japanese in three groups", "EV-4", "Kaku^Hanako=架空^花子=かくう^はなこ", "2009-07-01", "F"));

    @TempDir
    private static Path folder;

    private final Map<Path, String> objects = new LinkedHashMap<>();
    private final Set<String> views = new TreeSet<>();
    private final Set<String> captures = new TreeSet<>();

    private static Map<String, List<String>> pictures() {
        Map<String, List<String>> pictures = new LinkedHashMap<>();
        pictures.put("colour 4:2:2", List.of("-sample", "2x1"));
        pictures.put("grey", List.of("-grayscale"));
        pictures.put("RGB-coded", List.of("-rgb"));
        return pictures;
    }

    /** One way to take a view. */
    private record Taking(String view, String capture, String like, List<String> teeth) {}

    private static List<Taking> takings() {
        Commands.Said said = Commands.run(List.of("views", "--json"));
        assertThat(said.exit()).as(said.err()).isZero();
        JsonNode all = new ObjectMapper().readTree(said.out()).get("views");
        Set<String> mirrored = new TreeSet<>();
        all.forEach(view -> {
            if (view.get("taken").asString().equals("mirror")) {
                mirrored.add(view.get("id").asString());
            }
        });
        List<Taking> takings = new ArrayList<>();
        for (JsonNode view : all) {
            String id = view.get("id").asString();
            if (view.get("taken").asString().equals("either")) {
                takings.addAll(closeUps(id, words(view, "directionSharedWith"), mirrored));
            } else {
                for (String capture : captures(mirrored.contains(id))) {
                    takings.add(new Taking(id, capture, "", words(view, "teethToOffer")));
                }
            }
        }
        return takings;
    }

    private static List<String> captures(boolean mirror) {
        return mirror ? List.of("mirror-front", "mirror-behind") : List.of("direct", "direct-behind");
    }

    /** Of views that share the direction of another one, in every direction they may have. */
    private static List<Taking> closeUps(String view, List<String> shared, Set<String> mirrored) {
        List<String> directions =
                shared.isEmpty() ? List.of("teeth-front-occlusion", "occlusal-maxillary-mirror") : shared;
        List<Taking> takings = new ArrayList<>();
        for (String like : directions) {
            for (String capture : captures(mirrored.contains(like))) {
                takings.add(new Taking(view, capture, like, List.of()));
            }
        }
        return takings;
    }

    private static List<String> words(JsonNode view, String field) {
        List<String> words = new ArrayList<>();
        view.get(field).forEach(word -> words.add(word.asString()));
        return words;
    }

    @BeforeAll
    void make() throws IOException {
        Tool compressor = Tool.named("cjpeg");
        Random random = new Random(SEED);
        List<String> kinds = List.copyOf(PICTURES.keySet());
        int number = 0;
        for (Taking taking : takings()) {
            String kind = kinds.get(number % kinds.size());
            Path photograph = photograph(compressor, kind, number, random);
            make(taking, kind, PEOPLE.get(number % PEOPLE.size()), photograph);
            Files.delete(photograph);
            number++;
        }
    }

    private void make(Taking taking, String kind, Person person, Path photograph) throws IOException {
        String what = "%s, %s, %s, %s".formatted(taking.view, taking.capture, kind, person.script);
        Path target = folder.resolve("%04d.dcm".formatted(objects.size()));
        List<String> words = new ArrayList<>(List.of("wrap", photograph.toString(), "--out", target.toString()));
        words.addAll(List.of("--view", taking.view, "--capture", taking.capture));
        words.addAll(
                List.of("--patient-id", person.id, "--patient-name", person.name, "--issuer", "Invented practice"));
        words.addAll(List.of("--birth-date", person.birth, "--sex", person.sex));
        if (!taking.like.isEmpty()) {
            words.addAll(List.of("--like", taking.like));
        }
        if (!taking.teeth.isEmpty() && objects.size() % 3 == 0) {
            words.addAll(List.of("--teeth", String.join(",", taking.teeth)));
        }
        Path recorded = folder.resolve("%04d.dcm".formatted(objects.size() + 1));
        boolean beside = !taking.capture.equals("direct");
        if (beside) {
            words.addAll(List.of("--raw-out", recorded.toString()));
        }
        Commands.Said said = Commands.run(words);
        assertThat(said.exit()).as("%s: %s", what, said.err()).isZero();
        objects.put(target, what);
        if (beside) {
            objects.put(recorded, what + ", as recorded");
        }
        views.add(taking.view);
        captures.add(taking.capture);
    }

    /** A picture of a seed. */
    private static Path photograph(Tool compressor, String kind, int number, Random random) throws IOException {
        byte[] samples = new byte[3 * WIDTH * HEIGHT];
        int tint = random.nextInt(60);
        for (int i = 0; i < samples.length; i++) {
            int x = i / 3 % WIDTH;
            int y = i / 3 / WIDTH;
            samples[i] = (byte) ((x / 8 + y / 8) % 2 * 110 + i % 3 * tint / 2 + random.nextInt(25) + 30);
        }
        Path raster = folder.resolve("photograph.ppm");
        byte[] head = "P6\n%d %d\n255\n".formatted(WIDTH, HEIGHT).getBytes(java.nio.charset.StandardCharsets.US_ASCII);
        byte[] all = java.util.Arrays.copyOf(head, head.length + samples.length);
        System.arraycopy(samples, 0, all, head.length, samples.length);
        Files.write(raster, all);
        Path photograph = folder.resolve("photograph-%04d.jpg".formatted(number));
        List<String> words = new ArrayList<>(PICTURES.get(kind));
        words.addAll(List.of("-quality", "92", "-outfile", photograph.toString(), raster.toString()));
        assertThat(compressor.run(words).exit()).isZero();
        Files.delete(raster);
        return photograph;
    }

    @Test
    @DisplayName("are 200 and more: all 48 views, every capture a person can name")
    void enough() {
        System.out.printf("%d good objects of %d views, seed %d%n", objects.size(), views.size(), SEED);
        assertThat(views).hasSize(48);
        assertThat(captures).containsExactly("direct", "direct-behind", "mirror-behind", "mirror-front");
        assertThat(objects).hasSizeGreaterThanOrEqualTo(200);
    }

    @Test
    @DisplayName("are in colour, in grey and in RGB, and hold the names in all scripts")
    void varied() throws IOException {
        Set<String> inks = new TreeSet<>();
        Set<String> names = new TreeSet<>();
        for (Path object : objects.keySet()) {
            DataSet dataSet = DicomFile.read(object).dataSet();
            inks.add(dataSet.text(Attributes.PHOTOMETRIC_INTERPRETATION).orElseThrow());
            names.add(dataSet.text(Attributes.PATIENT_NAME).orElseThrow());
        }
        assertThat(inks).containsExactly("MONOCHROME2", "RGB", "YBR_FULL_422");
        assertThat(names)
                .containsExactlyInAnyOrderElementsOf(
                        PEOPLE.stream().map(Person::name).toList());
    }

    @ParameterizedTest
    @ValueSource(strings = {"standard", "practice"})
    @DisplayName("have no finding that is an error or a warning, each alone and all in one batch")
    void noFinding(String profile) throws IOException {
        Report report = Validator.under(Profile.named(profile).orElseThrow()).validate(List.of(folder));
        List<String> found = new ArrayList<>();
        for (ObjectReport object : report.objects()) {
            assertThat(object.reason()).isEmpty();
            String what = objects.get(object.path().orElseThrow());
            object.findings().stream()
                    .filter(finding -> finding.severity() != Severity.NOTE)
                    .forEach(finding -> found.add(what + ": " + finding.rule().id() + " " + finding.line()));
        }
        report.whole().findings().stream()
                .filter(finding -> finding.severity() != Severity.NOTE)
                .forEach(finding -> found.add("batch: " + finding.rule().id() + " " + finding.line()));
        assertThat(found).isEmpty();
        assertThat(report.objects()).hasSameSizeAs(objects.keySet());
    }

    @Test
    @DisplayName("are no errors to dciodvfy, and no warnings without a reason")
    void dciodvfy() throws IOException {
        Dciodvfy dciodvfy = Dciodvfy.find();
        List<String> found = new ArrayList<>();
        for (Map.Entry<Path, String> object : objects.entrySet()) {
            for (String finding : dciodvfy.findings(object.getKey())) {
                // Laboratory work has no body part, and the condition of Laterality is a paired one (PS3.3 C.7.3.1)
                boolean onTheBench = object.getValue().startsWith("lab-work") && finding.contains(NO_LATERALITY);
                if (!onTheBench && !ExplainedWarnings.explains(finding)) {
                    found.add(object.getValue() + ": " + finding);
                }
            }
        }
        assertThat(found).isEmpty();
    }
}
