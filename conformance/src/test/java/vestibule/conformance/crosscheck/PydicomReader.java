package vestibule.conformance.crosscheck;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Assumptions;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import vestibule.conformance.peer.Tool;
import vestibule.dicom.data.VR;

/** Readings by pydicom, all files in one process. */
public final class PydicomReader {

    private PydicomReader() {}

    /** What it makes of each file; nothing where it could not read one. The test is skipped where pydicom is absent. */
    public static Map<Path, Optional<Flat>> read(List<Path> files) throws IOException {
        // Debian's own, for that is the one its package of pydicom belongs to
        Tool python = new Tool(Path.of("/usr/bin/python3"));
        Assumptions.assumeTrue(
                Files.isExecutable(python.program())
                        && python.run("-c", "import pydicom").exit() == 0,
                "pydicom is not on this machine");
        Path script = Files.createTempFile("vestibule-", ".py");
        Path names = Files.createTempFile("vestibule-", ".txt");
        try (InputStream in = PydicomReader.class.getResourceAsStream("read_with_pydicom.py")) {
            Files.write(script, java.util.Objects.requireNonNull(in).readAllBytes());
            Files.write(names, files.stream().map(Path::toString).toList(), StandardCharsets.UTF_8);
            Tool.Said said = new Tool(Path.of("/bin/sh"))
                    .run("-c", "'%s' '%s' < '%s'".formatted(python.program(), script, names));
            if (said.exit() != 0) {
                throw new AssertionError(said.err());
            }
            return parse(said.out());
        } finally {
            Files.delete(script);
            Files.delete(names);
        }
    }

    private static Map<Path, Optional<Flat>> parse(String text) {
        JsonMapper json = new JsonMapper();
        Map<Path, Optional<Flat>> readings = new LinkedHashMap<>();
        text.lines().map(json::readTree).forEach(line -> {
            Path file = Path.of(line.path("file").asString());
            readings.put(file, line.has("error") ? Optional.empty() : Optional.of(flat(line.path("elements"))));
        });
        return readings;
    }

    private static Flat flat(JsonNode elements) {
        Map<String, Flat.Line> lines = new LinkedHashMap<>();
        for (JsonNode element : elements) {
            // "US or SS" where the dictionary leaves a choice: the first, as our reader takes it
            String vr = element.get(1).asString().split(" ", 2)[0];
            List<String> values = new ArrayList<>();
            StreamSupport.stream(element.get(2).spliterator(), false)
                    .map(JsonNode::asString)
                    .forEach(values::add);
            lines.put(
                    element.get(0).asString(),
                    new Flat.Line(
                            vr,
                            VR.parse(vr)
                                    .map(known -> Flat.normal(known, values))
                                    .orElse(values)));
        }
        return new Flat(lines);
    }
}
