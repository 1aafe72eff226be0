package vestibule.conformance.peer;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/** The object validator of dicom3tools. */
public final class Dciodvfy {

    private final Tool tool;

    private Dciodvfy(Tool tool) {
        this.tool = tool;
    }

    /** The one of this machine; the test is skipped where it is absent. */
    public static Dciodvfy find() {
        return new Dciodvfy(Tool.named("dciodvfy"));
    }

    /** Its errors and warnings about a file, one line each. */
    public List<String> findings(Path file) throws IOException {
        return tool.run("-new", file.toString())
                .all()
                .lines()
                .filter(line -> line.startsWith("Error") || line.startsWith("Warning"))
                .toList();
    }
}
