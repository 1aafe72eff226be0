package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AeTitle;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Sittings before anything is sent: what is missing, and the contact sheet")
class SittingsShownTest {

    private static final Clock CLOCK = Clock.system(ZoneOffset.UTC);
    private static final Understanding WORKSHOP = new Workshop(CLOCK);
    private static final String FRONT = "zoe-teeth-front-occlusion";
    private static final PhotoSize MIDDLE = new PhotoSize(640, 480);

    @TempDir
    Path folder;

    @BeforeEach
    void start() throws IOException {
        settings("");
    }

    private void settings(String more) throws IOException {
        practice().settings("""
                %s
                [intake]
                settle = "1 ms"
                [patients]
                names = ["{id}/*"]
                day-list = '%s'
                ask-archive = false
                [views]
                mirror = "front"
                [sets]
                usual = "recall"
                [sets.own.recall]
                name = "Recall"
                views = ["teeth-front-occlusion", "teeth-buccal-left-direct", "occlusal-maxillary-mirror"]
                """.formatted(more, practice().dayList()));
    }

    private void photo(String name, String sample, PhotoSize size) throws IOException {
        Path file = folder.resolve("card").resolve(name);
        Files.createDirectories(file.getParent());
        Files.write(file, Samples.jpeg(Samples.photo(sample), size));
    }

    private PracticeFolder practice() {
        return new PracticeFolder(folder);
    }

    private Ran run(Command command, String... words) {
        return practice().run(command, words);
    }

    private Ran intake() {
        return practice().intake(WORKSHOP, CLOCK);
    }

    private void twoPatients() throws IOException {
        photo("PG-0001/IMG_0001_teeth-front-occlusion.JPG", FRONT, PhotoSize.THUMBNAIL);
        photo("PG-0001/IMG_0002_occlusal-maxillary-mirror.JPG", "zoe-occlusal-maxillary-mirror", PhotoSize.THUMBNAIL);
        photo("PG-0005/IMG_0003_teeth-front-occlusion.JPG", "hanako-teeth-front-occlusion", PhotoSize.THUMBNAIL);
    }

    private String sheet(String... words) throws IOException {
        Path page = folder.resolve("sheet-%d.html".formatted(words.length));
        Ran ran = run(
                new SheetCommand(CLOCK),
                Stream.concat(Stream.of(words), Stream.of("--out", page.toString()))
                        .toArray(String[]::new));
        assertThat(ran.exit()).as(ran.err()).isZero();
        return Files.readString(page);
    }

    @Test
    @DisplayName(
            "intake and status say what is missing and what is there twice, sitting by sitting, and name no patient")
    void gaps() throws IOException {
        twoPatients();
        photo("PG-0001/IMG_0004_teeth-front-occlusion.JPG", "zoe-face-front-smile", PhotoSize.THUMBNAIL);
        Ran taken = intake();
        assertThat(taken.out())
                .contains("Recall: missing: Buccal left, in occlusion; taken twice: PG-0001/IMG_0001")
                .contains("Recall: missing: Buccal left, in occlusion, Upper occlusal (mirror)")
                .doesNotContain("Exempel", "Mihon");
        Ran status = run(new StatusCommand(CLOCK));
        assertThat(status.out()).contains("sitting from PG-0001/IMG_0004", "missing: Buccal left, in occlusion; taken");
        assertThat(run(new StatusCommand(CLOCK), "--json").out())
                .contains("\"sittings\":[{", "\"missing\":[\"Buccal left, in occlusion\"]");
        photo("PG-0005/IMG_0005_teeth-buccal-left-direct.JPG", "hanako-teeth-buccal-left-direct", PhotoSize.THUMBNAIL);
        photo("PG-0005/IMG_0006_occlusal-maxillary-mirror.JPG", "hanako-occlusal-maxillary-mirror", MIDDLE);
        assertThat(intake().out())
                .contains("sitting from PG-0005/IMG_0003_teeth-front-occlusion.JPG (3 photographs), Recall: complete");
    }

    @Test
    @DisplayName("the sheet shows pictures, sides, gaps and two identifiers of one sitting, and nothing of another one")
    void sheetOfOneSitting() throws IOException {
        twoPatients();
        intake();
        String page = sheet("--sitting", "IMG_0001_teeth-front-occlusion.JPG");
        assertThat(page)
                .contains("Exempel Zoë Åsa", "ID PG-0001 (PAINTED-GATE)", "born 1987-02-28")
                .contains("Missing from the set", "Buccal left, in occlusion", "state</dt><dd>waiting")
                .doesNotContain("PG-0005", "Mihon", "2000-02-29", "http:", "https:");
        assertThat(page.split("data:image/jpeg;base64,", -1)).hasSize(3);
        assertThat(sheet()).contains("PG-0001", "PG-0005");
        assertThat(run(new StatusCommand(CLOCK)).out()).contains("3 waiting");
        assertThat(run(
                                new SheetCommand(CLOCK),
                                "--out",
                                folder.resolve("x.html").toString(),
                                "--since",
                                "2100-01-01")
                        .exit())
                .isEqualTo(1);
    }

    @Test
    @DisplayName(
            "the sheet gives hints about a photograph that came out dark, so that it can be taken again, and none about another")
    void hints() throws IOException {
        photo("PG-0001/IMG_0001_teeth-front-occlusion.JPG", FRONT, PhotoSize.THUMBNAIL);
        ImageIO.write(
                new BufferedImage(320, 240, BufferedImage.TYPE_INT_RGB),
                "jpg",
                folder.resolve("card/PG-0001/IMG_0002_teeth-buccal-left-direct.JPG")
                        .toFile());
        intake();
        String page = sheet();
        assertThat(page).contains("<dt>hint</dt><dd>hardly anything in the picture is lighter than");
        assertThat(page.split("<dt>hint</dt>", -1)).as("one hint").hasSize(2);
    }

    @Test
    @DisplayName("what is only proposed is marked as such, and the patient as well")
    void proposals() throws IOException {
        photo("PG-0009/IMG_0001.JPG", "zoe-face-front-smile", PhotoSize.THUMBNAIL);
        photo("PG-0001/IMG_0002.JPG", FRONT, PhotoSize.THUMBNAIL);
        photo("PG-0001/IMG_0003.JPG", "zoe-teeth-buccal-left-direct", PhotoSize.THUMBNAIL);
        photo("PG-0001/IMG_0004.JPG", "zoe-occlusal-maxillary-mirror", PhotoSize.THUMBNAIL);
        assertThat(intake().out()).contains("to be confirmed: Teeth front, in occlusion");
        assertThat(sheet("--sitting", "IMG_0002.JPG"))
                .contains("proposal: to be confirmed", "3 to be confirmed", "accept it, or say which view it is");
    }

    @Test
    @DisplayName("where nothing is proposed nothing can be accepted, and that is said")
    void nothingToAccept() throws IOException {
        photo("PG-0009/IMG_0001.JPG", "zoe-face-front-smile", PhotoSize.THUMBNAIL);
        intake();
        Ran accepted = run(new SettleCommand(WORKSHOP, CLOCK), "IMG_0001.JPG", "--accept");
        assertThat(accepted.exit()).isEqualTo(1);
        assertThat(accepted.err()).contains("nothing is proposed that could be accepted (");
    }

    @Test
    @DisplayName("opened in a browser it is readable: every picture is drawn, the marks R and L stand beside it")
    void inABrowser() throws Exception {
        twoPatients();
        intake();
        sheet("--sitting", "IMG_0001_teeth-front-occlusion.JPG");
        Path page = folder.resolve("sheet-2.html");
        String probe = Files.readString(page)
                .replace("default-src 'none';", "default-src 'none'; script-src 'unsafe-inline';")
                .replace("</main>", """
                        <p id="told"></p></main><script>addEventListener('load', () => {
                        const all = [...document.images];
                        document.getElementById('told').textContent = 'drawn ' + all.filter(i => i.naturalWidth > 100).length
                          + ' of ' + all.length + ', marks ' + [...document.querySelectorAll('.mark.side')].map(m => m.textContent.trim()).join('')
                          + ', asked for ' + performance.getEntriesByType('resource').filter(e => !e.name.startsWith('data:')).length;
                        });</script>""");
        Path probed = Files.writeString(folder.resolve("probed.html"), probe);
        String dom = chromium("--dump-dom", probed.toUri().toString());
        assertThat(dom).contains("drawn 2 of 2, marks RLRL, asked for 0");
        Path shot = Path.of("target", "contact-sheet.png").toAbsolutePath();
        chromium("--window-size=1100,1300", "--screenshot=" + shot, page.toUri().toString());
        BufferedImage picture = ImageIO.read(shot.toFile());
        assertThat(picture.getWidth()).isEqualTo(1100);
    }

    private String chromium(String... words) throws Exception {
        Path program = Path.of("/usr/bin/chromium");
        Assumptions.assumeTrue(Files.isExecutable(program), "chromium is not installed");
        List<String> command = Stream.concat(
                        Stream.of(
                                program.toString(),
                                "--headless",
                                "--no-sandbox",
                                "--disable-gpu",
                                "--disable-quic",
                                "--no-first-run",
                                "--disable-background-networking",
                                "--disable-component-update",
                                "--disable-sync",
                                "--user-data-dir=" + Files.createTempDirectory(folder, "profile")),
                        Stream.of(words))
                .toList();
        Path out = folder.resolve("chromium.out");
        Process process = new ProcessBuilder(command)
                .redirectOutput(out.toFile())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        assertThat(process.waitFor(120, TimeUnit.SECONDS)).isTrue();
        return Files.readString(out, StandardCharsets.UTF_8);
    }

    @Test
    @DisplayName(
            "earlier photographs of the same view and side are found by query and listed; other views, sides and patients are not")
    void earlier() throws IOException {
        try (EmbeddedArchive archive = EmbeddedArchive.start(
                folder.resolve("archive"),
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                new AeTitle("ARCHIVE"))) {
            String url = "dicom://127.0.0.1:%d/ARCHIVE".formatted(archive.port());
            settings("[archive]\nurl = \"%s\"".formatted(url));
            String same = earlierObject(url, "1", "teeth-front-occlusion", "PG-0001");
            String otherView = earlierObject(url, "2", "teeth-front-apart", "PG-0001");
            String otherPatient = earlierObject(url, "3", "teeth-front-occlusion", "PG-0005");
            twoPatients();
            intake();
            String page = sheet("--sitting", "IMG_0001_teeth-front-occlusion.JPG");
            assertThat(page)
                    .contains("Earlier photographs of the same views")
                    .contains("Teeth front, in occlusion: 2025-02-11, object " + same)
                    .doesNotContain(otherView, otherPatient);
        }
    }

    private String earlierObject(String url, String number, String view, String patient) throws IOException {
        Path jpeg = Files.write(
                folder.resolve("earlier-%s.jpg".formatted(number)),
                Samples.jpeg(Samples.photo(FRONT), PhotoSize.THUMBNAIL));
        Path wrapped = folder.resolve("wrapped-%s.dcm".formatted(number));
        Ran ran = Ran.vestibule(
                "wrap",
                jpeg.toString(),
                "--out",
                wrapped.toString(),
                "--view",
                view,
                "--patient-id",
                patient,
                "--issuer",
                "PAINTED-GATE",
                "--patient-name",
                "Exempel^Zoë^Åsa",
                "--birth-date",
                "1987-02-28",
                "--sex",
                "F");
        assertThat(ran.exit()).as(ran.err()).isZero();
        DicomFile file = DicomFile.read(wrapped);
        String instance = "2.25.880" + number;
        DataSet object = file.dataSet().toBuilder()
                .put(Attributes.SOP_INSTANCE_UID, instance)
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.881" + number)
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.882" + number)
                .put(Attributes.STUDY_DATE, "20250211")
                .put(Attributes.CONTENT_DATE, "20250211")
                .put(Attributes.ACQUISITION_DATE_TIME, "20250211101500")
                .build();
        Path changed = folder.resolve("changed-%s.dcm".formatted(number));
        DicomFile.write(changed, object, file.transferSyntax());
        assertThat(Ran.vestibule("send", changed.toString(), "--to", url).exit())
                .isZero();
        return instance;
    }

    @Test
    @DisplayName(
            "the order decides only where count, frames and the look at every picture agree; one dark picture, and a person looks")
    void orderWithALook() throws IOException {
        settings("");
        String text =
                Files.readString(folder.resolve("vestibule.toml")).replace("usual =", "accept-order = true\nusual =");
        Files.writeString(folder.resolve("vestibule.toml"), text);
        photo("PG-0001/IMG_0002.JPG", FRONT, MIDDLE);
        photo("PG-0001/IMG_0003.JPG", "zoe-teeth-buccal-left-direct", MIDDLE);
        photo("PG-0001/IMG_0004.JPG", "zoe-occlusal-maxillary-mirror", MIDDLE);
        Ran good = intake();
        assertThat(good.exit()).as(good.out()).isZero();
        assertThat(good.out()).contains("Recall: complete");
        photo("PG-0005/IMG_0012.JPG", "hanako-teeth-front-occlusion", MIDDLE);
        Files.write(folder.resolve("card/PG-0005/IMG_0013.JPG"), dark("hanako-teeth-buccal-left-direct"));
        photo("PG-0005/IMG_0014.JPG", "hanako-occlusal-maxillary-mirror", MIDDLE);
        Ran doubtful = intake();
        assertThat(doubtful.exit()).isEqualTo(1);
        assertThat(doubtful.out()).contains("IMG_0012.JPG  order-proposes");
    }

    /** The same photograph, camera's notes and all, as if the flash had not gone off. */
    private static byte[] dark(String id) throws IOException {
        byte[] sample = Samples.jpeg(Samples.photo(id), MIDDLE);
        BufferedImage picture = ImageIO.read(new ByteArrayInputStream(sample));
        for (int y = 0; y < picture.getHeight(); y++) {
            for (int x = 0; x < picture.getWidth(); x++) {
                picture.setRGB(x, y, picture.getRGB(x, y) >> 4 & 0x0F0F0F);
            }
        }
        ByteArrayOutputStream encoded = new ByteArrayOutputStream();
        ImageIO.write(picture, "jpeg", encoded);
        int at = 2;
        while ((sample[at + 1] & 0xFF) != 0xE1) {
            at += 2 + ((sample[at + 2] & 0xFF) << 8 | (sample[at + 3] & 0xFF));
        }
        int length = 2 + ((sample[at + 2] & 0xFF) << 8 | (sample[at + 3] & 0xFF));
        ByteArrayOutputStream whole = new ByteArrayOutputStream();
        whole.write(encoded.toByteArray(), 0, 2);
        whole.write(sample, at, length);
        whole.write(encoded.toByteArray(), 2, encoded.size() - 2);
        return whole.toByteArray();
    }
}
