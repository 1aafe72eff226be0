package vestibule.conformance.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import vestibule.conformance.peer.Browser;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

/** WCAG 2.2: 1.3.1, 1.4.3, 2.1.1, 2.4.3 and 4.1.2, as Chromium computes roles, names and colours. */
@DisplayName("The HTML report, by keyboard, by screen reader and on paper")
class ReportInBrowserTest {

    private static final double LEAST_CONTRAST = 4.5;

    @TempDir
    Path folder;

    private Browser browser;

    @BeforeEach
    void start() throws Exception {
        Path objects = Files.createDirectories(folder.resolve("objects"));
        Path photo = Files.write(
                folder.resolve("photo.jpg"),
                Samples.jpeg(Samples.photo("zoe-teeth-front-occlusion"), PhotoSize.THUMBNAIL));
        Path good = objects.resolve("good.dcm");
        assertThat(Commands.wrap(photo, good).exit()).isZero();
        DicomFile file = DicomFile.read(good);
        DicomFile.write(
                objects.resolve("bad.dcm"),
                file.dataSet().toBuilder()
                        .put(Attributes.SOP_INSTANCE_UID, "2.25.77")
                        .put(Attributes.PATIENT_SEX, "X")
                        .build(),
                file.transferSyntax());
        Files.writeString(objects.resolve("notes.txt"), "no object");
        Path report = folder.resolve("report.html");
        Tool.Said said = new Tool(Path.of(System.getProperty("java.home"), "bin", "java"))
                .run(List.of(
                        "-cp",
                        System.getProperty("java.class.path"),
                        "vestibule.validator.app.Main",
                        "--profile",
                        "practice",
                        "--report",
                        "html=" + report,
                        objects.toString()));
        assertThat(said.exit()).as(said.all()).isEqualTo(1);
        browser = Browser.start(folder);
        browser.show(report);
    }

    @AfterEach
    void stop() {
        browser.close();
    }

    private List<String> texts(String script) throws Exception {
        JsonNode found = browser.script(script);
        return StreamSupport.stream(found.spliterator(), false)
                .map(JsonNode::asString)
                .toList();
    }

    @Test
    @DisplayName(
            "everything that can be used is reached by the tabulator, in the order of the page, with a role and a name")
    void keyboard() throws Exception {
        List<String> reached = new ArrayList<>();
        int all = browser.script("return document.querySelectorAll('input, summary').length")
                .asInt();
        for (int i = 0; i < all; i++) {
            reached.add(browser.tab());
        }
        assertThat(reached.subList(0, 8))
                .containsExactly(
                        "checkbox pass",
                        "checkbox warn",
                        "checkbox fail",
                        "checkbox unreadable",
                        "checkbox error",
                        "checkbox warning",
                        "checkbox note",
                        "searchbox Words to look for");
        assertThat(reached.subList(8, all))
                .allMatch(one -> one.matches(".* (pass|warn|fail|unreadable) .*\\.(dcm|txt)"))
                .hasSize(3);
    }

    @Test
    @DisplayName("the space bar takes verdicts and findings away and opens objects; what is left is said aloud")
    void filters() throws Exception {
        for (int i = 0; i < 4; i++) {
            browser.tab();
        }
        browser.type(" ");
        assertThat(browser.script("return document.getElementById('shown').textContent")
                        .asString())
                .isEqualTo("2 objects are shown");
        assertThat(browser.script("return document.getElementById('shown').getAttribute('aria-live')")
                        .asString())
                .isEqualTo("polite");
        browser.tab();
        browser.type(" ");
        assertThat(texts("return [...document.querySelectorAll('tr[data-severity=error]')].map(r => String(r.hidden))"))
                .isNotEmpty()
                .containsOnly("true");
        for (int i = 0; i < 3; i++) {
            browser.tab();
        }
        browser.type("patientsex");
        assertThat(
                        texts(
                                "return [...document.querySelectorAll('.object')].filter(o => !o.hidden).map(o => o.dataset.verdict)"))
                .containsExactly("fail");
        browser.tab();
        assertThat(browser.script("return document.activeElement.parentElement.open")
                        .asBoolean())
                .isTrue();
        browser.type(" ");
        assertThat(browser.script("return document.activeElement.parentElement.open")
                        .asBoolean())
                .isFalse();
    }

    @Test
    @DisplayName("it has a language, a title, headings without a gap, and tables whose heads say what stands below")
    void structure() throws Exception {
        assertThat(browser.script("return document.documentElement.lang").asString())
                .isEqualTo("en");
        assertThat(browser.script("return document.title").asString()).startsWith("Report of the validator");
        assertThat(texts("return [...document.querySelectorAll('h1,h2,h3,h4')].map(h => h.tagName)"))
                .startsWith("H1", "H2")
                .doesNotContain("H3", "H4");
        assertThat(texts("return [...document.querySelectorAll('table')].map(t => String("
                        + "[...t.rows[0].cells].every(c => c.tagName === 'TH' && c.scope === 'col')))"))
                .isNotEmpty()
                .containsOnly("true");
    }

    @Test
    @DisplayName(
            "every text stands out from its ground by 4.5 to 1 (WCAG 2.2, 1.4.3), and colour is never all that tells")
    void contrast() throws Exception {
        JsonNode least = browser.script("""
                function light(c) {
                  const p = c.match(/[0-9.]+/g).slice(0, 3).map(v => v / 255)
                      .map(v => v <= 0.04045 ? v / 12.92 : Math.pow((v + 0.055) / 1.055, 2.4));
                  return 0.2126 * p[0] + 0.7152 * p[1] + 0.0722 * p[2];
                }
                function ground(e) {
                  while (e) {
                    const c = getComputedStyle(e).backgroundColor;
                    if (!c.startsWith('rgba(0, 0, 0, 0')) { return c; }
                    e = e.parentElement;
                  }
                  return 'rgb(255, 255, 255)';
                }
                let least = 21;
                document.querySelectorAll('main *').forEach(e => {
                  if (![...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) { return; }
                  const a = light(getComputedStyle(e).color), b = light(ground(e));
                  least = Math.min(least, (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05));
                });
                return least;""");
        assertThat(least.asDouble()).isBetween(LEAST_CONTRAST, 21.0);
        assertThat(texts("return [...document.querySelectorAll('.verdict, td.error, td.warning, td.note')]"
                        + ".filter(e => !e.textContent.trim()).map(e => e.outerHTML)"))
                .isEmpty();
    }

    @Test
    @DisplayName("on paper every object that is shown is open, and afterwards as it was")
    void paper() throws Exception {
        String open = "return [...document.querySelectorAll('details')].map(d => String(d.open))";
        List<String> before = texts(open);
        assertThat(before).contains("false");
        browser.script("window.dispatchEvent(new Event('beforeprint'))");
        assertThat(texts(open)).containsOnly("true");
        browser.script("window.dispatchEvent(new Event('afterprint'))");
        assertThat(texts(open)).isEqualTo(before);
        assertThat(new String(browser.print(), StandardCharsets.ISO_8859_1)).startsWith("%PDF-");
        Files.write(Path.of("target", "report.png"), browser.screenshot());
    }
}
