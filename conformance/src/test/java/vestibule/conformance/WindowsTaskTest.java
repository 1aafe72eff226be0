package vestibule.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

@DisplayName("The task of Windows in docs/administrator.md")
class WindowsTaskTest {

    private static final String SCHEMA = "http://schemas.microsoft.com/windows/2004/02/mit/task";
    private static final Pattern TASK = Pattern.compile("```xml\n(<\\?xml .*?</Task>)\n```", Pattern.DOTALL);

    private static String guide() throws Exception {
        Path folder = Path.of("").toAbsolutePath();
        while (!Files.exists(folder.resolve("DEVELOPERS.md"))) {
            folder = folder.getParent();
        }
        return Files.readString(folder.resolve("docs/administrator.md"));
    }

    private static String value(Document task, String element) {
        NodeList found = task.getElementsByTagNameNS(SCHEMA, element);
        assertThat(found.getLength()).as(element).isEqualTo(1);
        return found.item(0).getTextContent();
    }

    @Test
    @DisplayName("is well-formed, never ends by the clock or on battery, is started again, and runs what systemd runs")
    void task() throws Exception {
        Matcher found = TASK.matcher(guide());
        assertThat(found.find()).isTrue();
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        Document task = factory.newDocumentBuilder().parse(new InputSource(new StringReader(found.group(1))));
        assertThat(task.getDocumentElement().getAttribute("version")).isEqualTo("1.2");
        assertThat(task.getElementsByTagNameNS(SCHEMA, "BootTrigger").getLength())
                .isEqualTo(1);
        assertThat(value(task, "ExecutionTimeLimit")).isEqualTo("PT0S");
        assertThat(value(task, "DisallowStartIfOnBatteries")).isEqualTo("false");
        assertThat(value(task, "StopIfGoingOnBatteries")).isEqualTo("false");
        assertThat(value(task, "MultipleInstancesPolicy")).isEqualTo("IgnoreNew");
        assertThat(value(task, "RunLevel")).isEqualTo("LeastPrivilege");
        assertThat(Integer.parseInt(value(task, "Count")))
                .as("an unsigned byte of the schema")
                .isBetween(1, 255);
        String options = value(task, "Arguments").split(" -jar ", 2)[0];
        assertThat(guide()).contains("ExecStart=/usr/bin/java " + options + " -jar ");
        assertThat(value(task, "Arguments")).contains(" run --config ");
    }
}
