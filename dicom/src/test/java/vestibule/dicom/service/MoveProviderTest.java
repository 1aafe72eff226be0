package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.Tool;

@DisplayName("C-MOVE as its provider (PS3.4 C.4.2)")
@Timeout(60)
class MoveProviderTest extends DcmtkFixture {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;
    private static final AeTitle VIEWER = new AeTitle("VIEWER");
    private static final DataSet STUDY =
            DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.3").build();

    private final Map<AeTitle, ApplicationEntity> destinations = new ConcurrentHashMap<>();
    private final List<DataSet> stores = new CopyOnWriteArrayList<>();
    private final List<Uid> kept = new CopyOnWriteArrayList<>();

    private int moving(List<Path> files) throws IOException {
        return Integer.parseInt(listening(new MoveProvider(
                MODEL,
                (identifier, calling) -> {
                    if (!identifier.text(Attributes.STUDY_INSTANCE_UID).equals(Optional.of("1.2.3"))) {
                        throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "no such study is kept");
                    }
                    return files;
                },
                title -> Optional.ofNullable(destinations.get(title)),
                Deadlines.DEFAULT)));
    }

    /** A destination that notes the command sets it is sent and refuses one object. */
    private void viewer(Optional<Uid> refused) throws IOException {
        StorageProvider storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                received,
                1 << 30,
                object -> {
                    if (refused.equals(Optional.of(object.sopInstance()))) {
                        throw new RefusedException(Status.OUT_OF_RESOURCES, "full");
                    }
                    kept.add(object.sopInstance());
                    return Status.SUCCESS;
                });
        AssociationListener listener = closedLater(AssociationListener.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                AcceptorSettings.of(VIEWER, storage.contexts()),
                association -> {
                    Optional<Message> next = association.receive();
                    while (next.isPresent()) {
                        stores.add(next.get().command().elements());
                        storage.handle(association, next.get());
                        next = association.receive();
                    }
                }));
        destinations.put(
                VIEWER,
                new ApplicationEntity(VIEWER, "127.0.0.1", listener.address().getPort()));
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

    private static Uid instance(DicomFile file) {
        return file.sopInstance().orElseThrow();
    }

    private RetrieveUser asking(int port) throws IOException {
        return new RetrieveUser(associate(port, "ARCHIVE", List.of(RetrieveUser.moveProposal(MODEL))), MODEL);
    }

    @Test
    @DisplayName("sends every object to the destination, and tells it who asked and by which message")
    void all() throws IOException {
        viewer(Optional.empty());
        List<DicomFile> photos = photos(3);
        RetrieveUser user = asking(moving(paths(photos)));
        for (int i = 1; i <= 2; i++) {
            kept.clear();
            stores.clear();
            assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                    .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(3, 0, 0)));
            assertThat(kept)
                    .isEqualTo(photos.stream().map(MoveProviderTest::instance).toList());
            long message = i;
            assertThat(stores).hasSize(3).allSatisfy(command -> {
                assertThat(command.text(Attributes.MOVE_ORIGINATOR_APPLICATION_ENTITY_TITLE))
                        .contains("VESTIBULE");
                assertThat(command.integer(Attributes.MOVE_ORIGINATOR_MESSAGE_ID))
                        .contains(message);
            });
        }
    }

    @Test
    @DisplayName("names what the destination would not store, and counts the file that has gone")
    void inPart() throws IOException {
        List<DicomFile> photos = photos(3);
        Uid unwanted = instance(photos.get(1));
        viewer(Optional.of(unwanted));
        Files.delete(photos.get(2).path());
        assertThat(asking(moving(paths(photos))).move(QueryLevel.STUDY, STUDY, VIEWER))
                .isEqualTo(new RetrieveOutcome.DoneInPart(new RetrieveOutcome.Counts(1, 2, 0), List.of(unwanted)));
    }

    @Test
    @DisplayName(
            "a title that is not known here is refused with A801, whatever it is; what the handler refuses is refused; the association stands")
    void refused() throws IOException {
        viewer(Optional.empty());
        RetrieveUser user = asking(moving(List.of()));
        assertThat(((RetrieveOutcome.Refused) user.move(QueryLevel.STUDY, STUDY, new AeTitle("127.0.0.1:4242")))
                        .status()
                        .code())
                .isEqualTo(0xA801);
        DataSet other =
                DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.4").build();
        assertThat(((RetrieveOutcome.Refused) user.move(QueryLevel.STUDY, other, VIEWER)).comment())
                .isEqualTo("no such study is kept");
        assertThat(user.move(QueryLevel.STUDY, STUDY, VIEWER))
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(0, 0, 0)));
    }

    @Test
    @DisplayName("a destination that cannot be reached fails every object, and each is named")
    void unreachable() throws IOException {
        destinations.put(VIEWER, new ApplicationEntity(VIEWER, "127.0.0.1", Tool.freePort()));
        List<DicomFile> photos = photos(2);
        Association association =
                associate(moving(paths(photos)), "ARCHIVE", List.of(RetrieveUser.moveProposal(MODEL)));
        Command move = Command.move(association.nextMessageId(), MODEL.move(), VIEWER);
        association.send(association.accepted(MODEL.move()).orElseThrow(), move, STUDY);
        Message answer = association.answerTo(move);
        assertThat(answer.command().status()).isEqualTo(Status.PENDING);
        answer = association.answerTo(move);
        assertThat(answer.command().status()).isEqualTo(Status.SUBOPERATIONS_NOT_POSSIBLE);
        assertThat(association.receiveDataSet(answer, 10_000).texts(Attributes.FAILED_SOP_INSTANCE_UID_LIST))
                .isEqualTo(photos.stream().map(photo -> instance(photo).value()).toList());
    }

    @Test
    @DisplayName("DCMTK's movescu asks, and is itself the destination")
    void movescu() throws IOException {
        int port = Tool.freePort();
        destinations.put(VIEWER, new ApplicationEntity(VIEWER, "127.0.0.1", port));
        List<DicomFile> photos = photos(2);
        Path into = Files.createDirectories(folder.resolve("moved"));
        Tool.run(
                        folder,
                        "movescu",
                        "-v",
                        "-S",
                        "+xy",
                        "-aet",
                        "VIEWER",
                        "-aec",
                        "ARCHIVE",
                        "-aem",
                        "VIEWER",
                        "+P",
                        String.valueOf(port),
                        "-k",
                        "QueryRetrieveLevel=STUDY",
                        "-k",
                        "StudyInstanceUID=1.2.3",
                        "-od",
                        into.toString(),
                        "127.0.0.1",
                        String.valueOf(moving(paths(photos))))
                .succeeded();
        List<Uid> moved = new ArrayList<>();
        try (Stream<Path> files = Files.list(into)) {
            for (Path file : files.toList()) {
                moved.add(instance(DicomFile.read(file)));
            }
        }
        assertThat(moved)
                .containsExactlyInAnyOrderElementsOf(
                        photos.stream().map(MoveProviderTest::instance).toList());
    }
}
