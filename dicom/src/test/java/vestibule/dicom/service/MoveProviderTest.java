package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ScriptedPeer;
import vestibule.dicom.net.Tool;
import vestibule.dicom.net.Wire;
import vestibule.dicom.net.pdu.Pdu;

@DisplayName("C-MOVE as its provider (PS3.4 C.4.2)")
@Timeout(60)
class MoveProviderTest extends DcmtkFixture {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;
    private static final AeTitle VIEWER = new AeTitle("VIEWER");
    private static final DataSet STUDY =
            DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.3").build();

    /** An archive that has these files in its one study and knows one destination, VIEWER. */
    private int archive(List<Path> files, int portOfViewer) throws IOException {
        return Integer.parseInt(listening(new MoveProvider(
                MODEL,
                (identifier, calling) -> {
                    if (!identifier.text(Attributes.STUDY_INSTANCE_UID).equals(Optional.of("1.2.3"))) {
                        throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "no such study is kept");
                    }
                    return files;
                },
                title -> title.equals(VIEWER)
                        ? Optional.of(new ApplicationEntity(VIEWER, "127.0.0.1", portOfViewer))
                        : Optional.empty(),
                new AeTitle("ARCHIVE"),
                Deadlines.DEFAULT)));
    }

    private int viewer(StorageProvider.Handler handler) throws IOException {
        AssociationListener listener = closedLater(new ServiceProvider(List.of(new StorageProvider(
                        List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                        List.of(Uids.JPEG_BASELINE8_BIT),
                        received,
                        1 << 30,
                        handler)))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(VIEWER, List.of())));
        return listener.address().getPort();
    }

    private List<DicomFile> photos(int count) throws IOException {
        List<DicomFile> photos = new ArrayList<>();
        for (int i = 1; i <= count; i++) {
            photos.add(Objects.photo(objects, 50_000 * i, i));
        }
        return photos;
    }

    private static List<Path> paths(List<DicomFile> files) {
        return files.stream().map(DicomFile::path).toList();
    }

    private static List<Uid> instances(List<DicomFile> files) {
        return files.stream().flatMap(file -> file.sopInstance().stream()).toList();
    }

    private RetrieveUser user(int port) throws IOException {
        return new RetrieveUser(associate(port, "ARCHIVE", List.of(RetrieveUser.moveProposal(MODEL))), MODEL);
    }

    @Test
    @DisplayName("every object reaches the destination, and again on the same association")
    void all() throws IOException {
        List<DicomFile> photos = photos(3);
        List<Uid> kept = new CopyOnWriteArrayList<>();
        RetrieveUser user = user(archive(paths(photos), viewer(object -> {
            kept.add(object.sopInstance());
            return Status.SUCCESS;
        })));
        for (int i = 0; i < 2; i++) {
            kept.clear();
            assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                    .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(3, 0, 0)));
            assertThat(kept).isEqualTo(instances(photos));
        }
    }

    @Test
    @DisplayName(
            "an unknown destination is refused before anything is looked for; a study that is not there sends nothing")
    void refused() throws IOException {
        RetrieveUser user = user(archive(List.of(), 1));
        DataSet other =
                DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.4").build();
        RetrieveOutcome.Refused unknown =
                (RetrieveOutcome.Refused) user.move(QueryLevel.STUDY, other, new AeTitle("NOBODY"));
        assertThat(unknown.status().code()).isEqualTo(0xA801);
        assertThat(unknown.comment()).isEqualTo("the move destination has no address here");
        RetrieveOutcome.Refused refused = (RetrieveOutcome.Refused) user.move(QueryLevel.STUDY, other, VIEWER);
        assertThat(refused.status().code()).isEqualTo(0xA900);
        assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                .as("nobody listens at the destination, and nobody is called")
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(0, 0, 0)));
    }

    @Test
    @DisplayName(
            "what the destination would not store is named, what it changed is counted, what cannot be read is counted")
    void inPart() throws IOException {
        List<DicomFile> photos = photos(4);
        List<Uid> all = instances(photos);
        Files.delete(photos.get(3).path());
        RetrieveUser user = user(archive(paths(photos), viewer(object -> {
            if (object.sopInstance().equals(all.get(1))) {
                throw new RefusedException(Status.OUT_OF_RESOURCES, "full");
            }
            return object.sopInstance().equals(all.get(2)) ? 0xB000 : Status.SUCCESS;
        })));
        assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                .isEqualTo(new RetrieveOutcome.DoneInPart(new RetrieveOutcome.Counts(1, 2, 1), List.of(all.get(1))));
    }

    @Test
    @DisplayName("a destination that does not answer: nothing is moved, and every object is named")
    void nobodyThere() throws IOException {
        List<DicomFile> photos = photos(2);
        Association association = associate(
                archive(paths(photos), Tool.freePort()), "ARCHIVE", List.of(RetrieveUser.moveProposal(MODEL)));
        RetrieveOutcome.Refused refused =
                (RetrieveOutcome.Refused) new RetrieveUser(association, MODEL).move(QueryLevel.STUDY, STUDY, VIEWER);
        assertThat(refused.status().code()).isEqualTo(0xA702);
        assertThat(refused.counts()).isEqualTo(new RetrieveOutcome.Counts(0, 2, 0));
        assertThat(refused.comment()).isEqualTo("no association with the move destination could be opened");
        Message answer = asked(association, association.accepted(MODEL.move()).orElseThrow());
        assertThat(association.receiveDataSet(answer, 1 << 16).texts(Attributes.FAILED_SOP_INSTANCE_UID_LIST))
                .isEqualTo(instances(photos).stream().map(Uid::value).toList());
    }

    @Test
    @DisplayName("more kinds of objects than one association can propose: what finds no place is named as failed")
    void tooManyKinds() throws IOException {
        DicomFile photo = photos(1).get(0);
        List<DicomFile> all = new ArrayList<>(List.of(photo));
        for (int i = 0; i < 130; i++) {
            DataSet other = photo.dataSet().toBuilder()
                    .put(Attributes.SOP_CLASS_UID, "2.25.9." + i)
                    .put(Attributes.SOP_INSTANCE_UID, "2.25.8." + i)
                    .build();
            Path file = objects.resolve("kind-" + i + ".dcm");
            DicomFile.write(file, other, TransferSyntax.JPEG_BASELINE);
            all.add(DicomFile.read(file));
        }
        List<Uid> kept = new CopyOnWriteArrayList<>();
        RetrieveUser user = user(archive(paths(all), viewer(object -> {
            kept.add(object.sopInstance());
            return Status.SUCCESS;
        })));
        assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                .isEqualTo(new RetrieveOutcome.DoneInPart(
                        new RetrieveOutcome.Counts(1, 130, 0), instances(all).subList(1, 131)));
        assertThat(kept).isEqualTo(instances(List.of(photo)));
    }

    /** The last answer to a C-MOVE of the study. */
    private static Message asked(Association association, NegotiatedContext context) throws IOException {
        Command move = Command.move(association.nextMessageId(), MODEL.move(), VIEWER);
        association.send(context, move, identifier());
        return association.answerTo(move);
    }

    private static DataSet identifier() {
        return STUDY.toBuilder().put(Attributes.QUERY_RETRIEVE_LEVEL, "STUDY").build();
    }

    @Test
    @DisplayName("a destination that goes away after the first object: the others are named as failed")
    void lostOnTheWay() throws IOException {
        List<DicomFile> photos = photos(3);
        AtomicReference<Command> first = new AtomicReference<>();
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            Command store = new Command(wire.readCommand());
            first.set(store);
            readDataSet(wire);
            wire.message(1, store.response(0, false), DataSet.EMPTY);
            wire.readCommand();
        })) {
            RetrieveUser user = user(archive(paths(photos), peer.entity().port()));
            assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                    .isEqualTo(new RetrieveOutcome.DoneInPart(
                            new RetrieveOutcome.Counts(1, 2, 0),
                            instances(photos).subList(1, 3)));
        }
        DataSet store = first.get().elements();
        assertThat(store.text(Attributes.MOVE_ORIGINATOR_APPLICATION_ENTITY_TITLE))
                .contains("VESTIBULE");
        assertThat(store.integer(Attributes.MOVE_ORIGINATOR_MESSAGE_ID)).contains(1L);
    }

    private static void readDataSet(Wire wire) throws IOException {
        boolean last = false;
        while (!last) {
            last = ((Pdu.PData) wire.read()).values().stream().anyMatch(value -> !value.command() && value.last());
        }
    }

    @Test
    @DisplayName(
            "a C-CANCEL between two objects ends the move; a pending answer before it counts what is done and what remains")
    void cancelled() throws Exception {
        List<DicomFile> photos = photos(3);
        CountDownLatch second = new CountDownLatch(1);
        CountDownLatch cancelled = new CountDownLatch(1);
        List<Uid> kept = new CopyOnWriteArrayList<>();
        Association association = associate(
                archive(paths(photos), viewer(object -> {
                    kept.add(object.sopInstance());
                    if (kept.size() == 2) {
                        second.countDown();
                        await(cancelled);
                    }
                    return Status.SUCCESS;
                })),
                "ARCHIVE",
                List.of(RetrieveUser.moveProposal(MODEL)));
        NegotiatedContext context = association.accepted(MODEL.move()).orElseThrow();
        Command move = Command.move(association.nextMessageId(), MODEL.move(), VIEWER);
        association.send(context, move, identifier());
        Command pending = association.answerTo(move).command();
        assertThat(pending.status()).isEqualTo(Status.PENDING);
        assertThat(counts(pending)).containsExactly(2L, 1L, 0L, 0L);
        await(second);
        association.send(context, Command.cancel(move.messageId()));
        cancelled.countDown();
        Command answer = association.answerTo(move).command();
        assertThat(answer.status()).isEqualTo(Status.CANCELLED);
        assertThat(counts(answer)).containsExactly(1L, 2L, 0L, 0L);
        assertThat(kept).isEqualTo(instances(photos).subList(0, 2));
    }

    private static void await(CountDownLatch latch) throws IOException {
        try {
            assertThat(latch.await(20, TimeUnit.SECONDS)).isTrue();
        } catch (InterruptedException e) {
            throw new IOException(e);
        }
    }

    private static List<Long> counts(Command answer) {
        return Stream.of(
                        Attributes.NUMBER_OF_REMAINING_SUBOPERATIONS,
                        Attributes.NUMBER_OF_COMPLETED_SUBOPERATIONS,
                        Attributes.NUMBER_OF_FAILED_SUBOPERATIONS,
                        Attributes.NUMBER_OF_WARNING_SUBOPERATIONS)
                .map(each -> answer.elements().integer(each).orElse(-1L))
                .toList();
    }

    @Test
    @DisplayName(
            "DCMTK's movescu has the study sent to DCMTK's storescp, byte for byte, and is told of a destination nobody knows")
    void movescu() throws IOException {
        List<DicomFile> photos = photos(2);
        Path into = Files.createDirectories(folder.resolve("moved"));
        int port = Tool.freePort();
        closedLater(Tool.serve(
                folder,
                port,
                Map.of(),
                "storescp",
                "-v",
                "+xa",
                "-aet",
                "VIEWER",
                "-od",
                into.toString(),
                String.valueOf(port)));
        String archive = String.valueOf(archive(paths(photos), port));
        Tool moved = movescu(archive, "VIEWER").succeeded();
        assertThat(moved.output()).contains("Received Final Move Response (Success)");
        List<byte[]> got = new ArrayList<>();
        try (Stream<Path> files = Files.list(into)) {
            for (Path file : files.toList()) {
                got.add(Objects.pixels(DicomFile.read(file)
                        .dataSet()
                        .find(Attributes.PIXEL_DATA)
                        .orElseThrow()));
            }
        }
        assertThat(got).hasSize(2);
        for (DicomFile photo : photos) {
            byte[] sent =
                    Objects.pixels(photo.dataSet().find(Attributes.PIXEL_DATA).orElseThrow());
            assertThat(got).anyMatch(bytes -> Arrays.equals(bytes, sent));
        }
        assertThat(movescu(archive, "NOBODY").output()).contains("MoveDestinationUnknown");
    }

    private Tool movescu(String archive, String destination) throws IOException {
        return Tool.run(
                folder,
                "movescu",
                "-v",
                "-S",
                "-aet",
                "CALLER",
                "-aec",
                "ARCHIVE",
                "-aem",
                destination,
                "-k",
                "QueryRetrieveLevel=STUDY",
                "-k",
                "StudyInstanceUID=1.2.3",
                "127.0.0.1",
                archive);
    }
}
