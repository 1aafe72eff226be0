package vestibule.validator.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

@DisplayName("The command vestibule-validator")
class CommandTest {

    @TempDir
    Path folder;

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream err = new ByteArrayOutputStream();
    private Path object;
    private Path text;

    @BeforeEach
    void files() throws IOException {
        object = folder.resolve("b-object.dcm");
        DataSet minimal = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.7")
                .put(Attributes.SOP_INSTANCE_UID, "2.25.1")
                .build();
        DicomFile.write(object, minimal, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        text = folder.resolve("a-text.txt");
        Files.writeString(text, "not an object");
    }

    private int run(String... arguments) {
        return new Main(
                        new PrintStream(out, true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8))
                .run(arguments)
                .code();
    }

    private String out() {
        return out.toString(StandardCharsets.UTF_8);
    }

    private String err() {
        return err.toString(StandardCharsets.UTF_8);
    }

    @Test
    @DisplayName("writes no report over what it is about, nor over another object")
    void reportOverObject() throws IOException {
        byte[] before = Files.readAllBytes(object);
        assertThat(run(object.toString(), "--report", "json=" + object)).isEqualTo(2);
        assertThat(run(text.toString(), "--report", "html=" + object)).isEqualTo(2);
        assertThat(err()).contains("would be written over; name another file");
        assertThat(run(text.toString(), "--report", "text=" + text)).isEqualTo(2);
        assertThat(object).hasBinaryContent(before);
        assertThat(text).hasContent("not an object");
        Path report = folder.resolve("report.json");
        assertThat(run(object.toString(), "--report", "json=" + report)).isZero();
        assertThat(run(object.toString(), "--report", "json=" + report))
                .as("a report of before may be replaced")
                .isZero();
    }

    @Test
    @DisplayName("writes no two reports to one file, however it is called")
    void twoReportsToOneFile() throws IOException {
        Path report = folder.resolveSibling(folder.getFileName() + ".report");
        String again = folder + "/../" + report.getFileName();
        assertThat(run(object.toString(), "--report", "json=" + report, "--report", "html=" + again))
                .isEqualTo(2);
        assertThat(err()).contains("for two reports; name a file for each");
        assertThat(report).doesNotExist();
        Path link = Files.createSymbolicLink(folder.resolve("link"), Files.createFile(report));
        assertThat(run(object.toString(), "--report", "json=" + report, "--report", "html=" + link))
                .isEqualTo(2);
        assertThat(report).isEmptyFile();
        Files.delete(report);
    }

    @Test
    @DisplayName(
            "writes no report over a photograph or over its settings, nor among what it checks, but over one of before")
    void reportsOverOthers() throws IOException {
        Path outside = Files.createDirectories(folder.resolveSibling(folder.getFileName() + "-reports"));
        Path photo = Files.write(outside.resolve("a.jpg"), new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF});
        Path settings = Files.writeString(outside.resolve("settings.txt"), "profile practice\n");
        String[] names = {"text", "json", "csv", "html", "sarif", "junit"};
        for (String name : names) {
            assertThat(run(object.toString(), "--report", name + "=" + photo)).isEqualTo(2);
            assertThat(run(object.toString(), "--settings", settings.toString(), "--report", name + "=" + settings))
                    .isEqualTo(2);
            assertThat(run(folder.toString(), "--report", name + "=" + folder.resolve("inside")))
                    .isEqualTo(2);
            Path report = outside.resolve("report." + name);
            assertThat(run(object.toString(), "--report", name + "=" + report)).isZero();
            long first = Files.size(report);
            assertThat(run(object.toString(), "--report", name + "=" + report))
                    .as(name)
                    .isZero();
            assertThat(report).hasSize(first);
        }
        assertThat(photo).hasBinaryContent(new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF});
        assertThat(settings).hasContent("profile practice");
        assertThat(folder.resolve("inside")).doesNotExist();
    }

    @Test
    @DisplayName("tells one file from two by where links lead, not by how they are written")
    void reportsBehindLinks() throws IOException {
        Path real = Files.createDirectories(folder.resolve("real/inner"));
        Path link = Files.createSymbolicLink(folder.resolve("linked"), real);
        assertThat(run(object.toString(), "--report", "json=" + real + "/r", "--report", "html=" + link + "/r"))
                .isEqualTo(2);
        assertThat(real.resolve("r")).doesNotExist();
        // Above the link is not where the link stands
        String above = link + "/../r";
        assertThat(run(object.toString(), "--report", "json=" + folder.resolve("r"), "--report", "html=" + above))
                .isZero();
        assertThat(folder.resolve("r")).isNotEmptyFile();
        assertThat(real.resolveSibling("r")).isNotEmptyFile();
    }

    @Test
    @DisplayName("says in every report that people read how far streams were read, and what may pass therefore")
    void depthIsSaid() throws IOException {
        String limit = "a picture that is cut short or damaged in it passes";
        for (String format : List.of("text", "html", "json", "sarif", "junit")) {
            Path report = folder.resolveSibling(folder.getFileName() + "." + format);
            for (String depth : List.of("headers", "markers", "codes")) {
                assertThat(run(object.toString(), "--streams", depth, "--report", format + "=" + report))
                        .isZero();
                if (depth.equals("codes")) {
                    assertThat(report).content().doesNotContain(limit);
                } else {
                    assertThat(report).content().contains(limit);
                }
            }
            Files.delete(report);
        }
    }

    @Test
    @DisplayName("takes --thumbnails with an html report only")
    void thumbnailsWithoutPage() {
        assertThat(run(object.toString(), "--thumbnails")).isEqualTo(2);
        assertThat(out()).isEmpty();
        assertThat(err())
                .isEqualTo("vestibule-validator: --thumbnails are for the html report only; add --report html=FILE,"
                        + " or leave them out\n");
        assertThat(run(object.toString(), "--thumbnails", "--report", "html=-")).isZero();
    }

    @Test
    @DisplayName("prints the text report and ends with 0 when no object fails")
    void fine() {
        assertThat(run(object.toString())).isZero();
        assertThat(out()).isEqualTo("""
                        vestibule-validator (development), DICOM 2024c (PS3.3), profile standard
                        streams: markers only; coded data is not decoded, so a picture that is cut short or damaged in it passes

                        %s  pass
                            NOTE     MOD-014  object: this is no VL Photographic Image but Secondary Capture Image Storage: \
                        checked are its file, its encoding and the forms of its values, and nothing beyond  \
                        [PS3.3 A.32.4]
                                     → Check it with a tool for its kind of object.

                        1 object: 1 pass, 0 warn, 0 fail, 0 unreadable
                        """.formatted(object));
        assertThat(err()).isEmpty();
    }

    @Test
    @DisplayName("writes JSON of the published shape, objects by name within their folder")
    void json() throws IOException {
        Path report = folder.resolveSibling(folder.getFileName() + ".json");
        assertThat(run(folder.toString(), "--report", "json=" + report)).isEqualTo(1);
        assertThat(Files.readString(report))
                .startsWith("{\"edition\":\"DICOM 2024c (PS3.3)\",\"profile\":\"standard\",")
                .contains("\"objects\":[{\"path\":\"" + text + "\",\"verdict\":\"unreadable\",\"reason\":\"")
                .contains(
                        "{\"path\":\"" + object + "\",\"verdict\":\"pass\",\"findings\":[{\"rule\":\"MOD-014\","
                                + "\"severity\":\"note\",\"confidence\":\"certain\",\"where\":\"object\",\"message\":\"this is no")
                .contains("\"clause\":\"PS3.3 A.32.4\",\"advice\":\"Check it with a tool for its kind of object.\"}")
                .endsWith("\"summary\":{\"objects\":2,\"pass\":1,\"warn\":0,\"fail\":0,\"unreadable\":1}}\n");
        assertThat(out()).isEqualTo("2 objects: 1 pass, 0 warn, 0 fail, 1 unreadable\n");
        Files.delete(report);
    }

    @Test
    @DisplayName("keeps standard output to the one report that goes there")
    void reportOnStandardOutput() {
        assertThat(run(object.toString(), "--report", "json=-")).isZero();
        assertThat(out()).startsWith("{\"edition\"").endsWith("}}\n").doesNotContain("objects: ");
    }

    @Test
    @DisplayName("ends with 1 when an object fails")
    void findings() throws IOException {
        Path broken = folder.resolve("broken.dcm");
        DataSet meta = DicomFile.metaInformation(
                new Uid("1.2.840.10008.5.1.4.1.1.7"), new Uid("2.25.2"), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        DicomFile.writeReceived(
                broken,
                meta,
                Bulk.concat(java.util.List.of(DicomFile.read(object).encodedDataSet())));
        assertThat(run(broken.toString())).isEqualTo(1);
        assertThat(out()).contains("ERROR    FIL-008  (0002,0003) MediaStorageSOPInstanceUID");
    }

    @Test
    @DisplayName("ends with 65 when not one file is an object, and says why for each")
    void nothingReadable() {
        assertThat(run(text.toString(), folder.resolve("gone.dcm").toString())).isEqualTo(65);
        assertThat(out())
                .contains("a-text.txt  unreadable\n    not a readable DICOM object: at byte 0")
                .contains("gone.dcm  unreadable\n    there is no such file or folder; check the path");
    }

    @Test
    @DisplayName("says of an empty file, a JPEG and a ZIP file what they are, and what to do")
    void otherFiles() throws IOException {
        Path empty = Files.createFile(folder.resolve("c-empty.dcm"));
        Path jpeg = Files.write(
                folder.resolve("d.dcm"), new byte[] {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, (byte) 0xE0, 0, 16});
        Path zip = Files.writeString(folder.resolve("e.dcm"), "PK\u0003\u0004 and no more");
        assertThat(run(empty.toString(), jpeg.toString(), zip.toString())).isEqualTo(65);
        assertThat(out())
                .contains("c-empty.dcm  unreadable\n    not a readable DICOM object: the file is empty; copy it again")
                .contains(
                        "d.dcm  unreadable\n    not a readable DICOM object: it is a JPEG file, a photograph that is no object yet; vestibule wrap")
                .contains("e.dcm  unreadable\n    the ZIP file has no end record; it is cut short, copy it again");
        byte[] start = new byte[137];
        start[132] = 2;
        start[136] = 'U';
        start[0] = (byte) 0xFF;
        start[1] = (byte) 0xD8;
        start[2] = (byte) 0xFF;
        System.arraycopy("DICM".getBytes(java.nio.charset.StandardCharsets.US_ASCII), 0, start, 128, 4);
        Path both = Files.write(folder.resolve("f.dcm"), start);
        assertThat(vestibule.validator.Validator.standard().validate(both).reason())
                .as("an object whose preamble begins as a photograph does")
                .hasValueSatisfying(reason -> assertThat(reason).doesNotContain("it is a JPEG file"));
        assertThat(vestibule.validator.Validator.standard().validate(zip).reason())
                .contains("not a readable DICOM object: it is a ZIP file; unpack it and check what is in it");
    }

    @Test
    @DisplayName("ends with 2 for words it does not know, without guessing at abbreviations")
    void usage() {
        assertThat(run()).isEqualTo(2);
        assertThat(run(object.toString(), "--prof", "standard")).isEqualTo(2);
        assertThat(run(object.toString(), "--profile", "strict")).isEqualTo(2);
        assertThat(run(object.toString(), "--report", "xml=x")).isEqualTo(2);
        assertThat(run(object.toString(), "--report", "json")).isEqualTo(2);
        assertThat(out()).isEmpty();
        assertThat(err().lines()).hasSize(5).allMatch(line -> line.startsWith("vestibule-validator: "));
        assertThat(err()).contains("--profile is \"strict\", and there are standard and practice; use one of them");
    }

    @Test
    @DisplayName("ends with 78 and names the settings file that is not there, is a folder or is no text")
    void settingsNotReadable() throws IOException {
        Path latin = Files.write(folder.resolve("latin.txt"), new byte[] {'#', (byte) 0xE9});
        Path gone = folder.resolve("gone.txt");
        assertThat(run(object.toString(), "--settings", gone.toString())).isEqualTo(78);
        assertThat(run(object.toString(), "--settings", folder.toString())).isEqualTo(78);
        assertThat(run(object.toString(), "--settings", latin.toString())).isEqualTo(78);
        assertThat(out()).isEmpty();
        assertThat(err().lines())
                .containsExactly(
                        "vestibule-validator: there is no settings file " + gone + "; name one that is there",
                        "vestibule-validator: " + folder
                                + " is a folder, expected a settings file; name the file in it",
                        "vestibule-validator: " + latin + " is not text in UTF-8; save it in that encoding");
    }

    @Test
    @DisplayName("ends with 74 when a report cannot be written")
    void notWritable() {
        assertThat(run(object.toString(), "--report", "json=" + folder.resolve("no/such/folder.json")))
                .isEqualTo(74);
        assertThat(err()).startsWith("vestibule-validator: a report cannot be written: ");
    }

    @Test
    @DisplayName("says what it can do")
    void help() {
        assertThat(run("--help")).isZero();
        assertThat(out()).contains("--profile <NAME>", "--report <FORMAT=FILE>", "--version");
        assertThat(run("--version")).isZero();
        assertThat(out()).endsWith("vestibule-validator (development), DICOM 2024c\n");
    }
}
