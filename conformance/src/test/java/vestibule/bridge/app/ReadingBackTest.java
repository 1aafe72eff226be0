package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import vestibule.bridge.outbox.Overview;
import vestibule.bridge.outbox.PhotoState;
import vestibule.conformance.fault.HeldObject;
import vestibule.conformance.fault.Oracle;
import vestibule.conformance.fault.Photographs;
import vestibule.conformance.fault.Script;
import vestibule.conformance.fault.ScriptedArchive;
import vestibule.dicom.data.Uid;
import vestibule.dicom.jpeg.EntropyCheck;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegFormatException;
import vestibule.dicom.jpeg.JpegLimits;

@DisplayName("Committed by reading back: what the archive keeps is fetched and compared")
class ReadingBackTest {

    @TempDir
    Path folder;

    private final BenchClock clock = new BenchClock();
    private Path card;
    private ScriptedArchive archive;
    private Bench bench;

    @BeforeEach
    void start() throws IOException {
        card = Photographs.card(folder.resolve("card"), 3, 11, 40);
        archive = ScriptedArchive.start(Script.HEALTHY);
        archive.keepBytes();
        bench = Bench.open(
                Bench.Site.of(folder.resolve("home"), card, archive.address())
                        .withSettings("[archive]\nproof = \"read-back\"\n"),
                clock);
    }

    @AfterEach
    void stop() throws IOException {
        bench.close();
        archive.close();
    }

    @Test
    @DisplayName("the same: committed, without asking for commitment, and the verdict says what it rests on")
    void same() throws IOException {
        assertThat(bench.untilIdle(4)).isTrue();
        Oracle.Verdict verdict = Oracle.judge(
                List.of(Mixture.on(card)),
                bench.account(),
                new Oracle.Archived(archive.held().values(), Optional.empty()));
        assertThat(verdict.clean()).as("%s", verdict).isTrue();
        assertThat(bench.counts()).isEqualTo(Map.of(PhotoState.COMMITTED, 3));
        assertThat(archive.requests()).isZero();
        assertThat(bench.keeping().outbox().overview().fate(card.toString()).proofs())
                .containsExactly("read-back");
    }

    @Test
    @DisplayName("one coefficient of one picture is another: found, said, and not committed; the others are")
    void changedCoefficient() throws IOException {
        Overview.Photograph photo = changed(ReadingBackTest::anotherCoefficient);
        assertThat(photo.reason()).contains("read-back-differs");
        assertThat(photo.message().orElseThrow()).contains("its picture is not the one that was sent");
    }

    @Test
    @DisplayName("kept in another study: found, said, and not committed")
    void changedStudy() throws IOException {
        Overview.Photograph photo = changed(object -> anotherLetter(object, 0x20, 0x0D, "UI"));
        assertThat(photo.reason()).contains("read-back-differs");
        assertThat(photo.message().orElseThrow()).contains("another study", "StudyInstanceUID");
    }

    @Test
    @DisplayName("kept for another patient: the reason is that of a changed patient, and nothing of either is said")
    void changedPatient() throws IOException {
        Overview.Photograph photo = changed(object -> anotherLetter(object, 0x10, 0x20, "LO"));
        assertThat(photo.reason()).contains("patient-changed");
        assertThat(photo.message().orElseThrow()).contains("another patient's data ((0010,0020) PatientID)");
    }

    /** The photograph of which the archive keeps something else, once everything else is done. */
    private Overview.Photograph changed(UnaryOperator<byte[]> change) throws IOException {
        archive.script(new Script() {
            private boolean done;

            @Override
            public Reception store(HeldObject object, int number) {
                return Reception.SUCCESS;
            }

            @Override
            public int query() {
                // The first question after an object was stored; by then its bytes are kept.
                if (!done) {
                    done = true;
                    Uid first = archive.held().keySet().iterator().next();
                    archive.change(first, change);
                }
                return 0;
            }
        });
        assertThat(bench.untilIdle(4)).isTrue();
        assertThat(bench.counts()).isEqualTo(Map.of(PhotoState.COMMITTED, 2, PhotoState.NEEDS_ATTENTION, 1));
        return bench.keeping()
                .outbox()
                .overview()
                .in(PhotoState.NEEDS_ATTENTION, PhotoState.NEEDS_ATTENTION)
                .get(0);
    }

    /** Another first letter of the value of an element, which has explicit VR. */
    private static byte[] anotherLetter(byte[] object, int group, int element, String vr) {
        byte[] start = {(byte) group, 0, (byte) element, 0, (byte) vr.charAt(0), (byte) vr.charAt(1)};
        int at = 0;
        while (!Arrays.equals(start, Arrays.copyOfRange(object, at, at + start.length))) {
            at++;
        }
        object[at + start.length + 2] ^= 1;
        return object;
    }

    /** Turns one bit over somewhere in the coded data, so that the picture can still be decoded to its end. */
    private static byte[] anotherCoefficient(byte[] object) {
        int start = after(object, 0xD8, 0);
        int scan = after(object, 0xDA, start) + 12;
        int end = after(object, 0xD9, scan);
        for (int at = scan; at < end - 2; at++) {
            object[at] ^= 1;
            if (decodes(Arrays.copyOfRange(object, start - 2, end))) {
                return object;
            }
            object[at] ^= 1;
        }
        throw new AssertionError("no bit of the picture may be another");
    }

    private static int after(byte[] bytes, int marker, int from) {
        int at = from;
        while ((bytes[at] & 0xFF) != 0xFF || (bytes[at + 1] & 0xFF) != marker) {
            at++;
        }
        return at + 2;
    }

    private static boolean decodes(byte[] stream) {
        try {
            Path file = Files.createTempFile("vestibule-", ".jpg");
            try {
                Files.write(file, stream);
                Jpeg.read(file, JpegLimits.DEFAULT);
                return EntropyCheck.surplusBytes(file, JpegLimits.DEFAULT) == 0;
            } catch (JpegFormatException damaged) {
                return false;
            } finally {
                Files.delete(file);
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
