package vestibule.dicom.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
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
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.Tool;

@DisplayName("C-GET as its provider (PS3.4 C.4.3)")
@Timeout(60)
class RetrieveProviderTest extends DcmtkFixture {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;
    private static final DataSet STUDY =
            DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.3").build();

    private int giving(List<Path> files) throws IOException {
        return Integer.parseInt(listening(
                storage(new ArrayList<>()).givingBack(), new RetrieveProvider(MODEL, (identifier, calling) -> {
                    if (!identifier.text(Attributes.STUDY_INSTANCE_UID).equals(Optional.of("1.2.3"))) {
                        throw new RefusedException(Status.DOES_NOT_MATCH_SOP_CLASS, "no such study is kept");
                    }
                    return files;
                })));
    }

    private StorageProvider storage(List<Uid> kept) {
        return new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                received,
                1 << 30,
                object -> {
                    if (!DicomFile.read(object.file()).sopInstance().equals(Optional.of(object.sopInstance()))) {
                        throw new IOException("the object came under another name");
                    }
                    kept.add(object.sopInstance());
                    return Status.SUCCESS;
                });
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

    private Association open(int port, AssociationRequest request) throws IOException {
        return closedLater(Association.open(
                request, new ApplicationEntity(new AeTitle("ARCHIVE"), "127.0.0.1", port), Deadlines.DEFAULT));
    }

    @Test
    @DisplayName("gives every object back, and again on the same association")
    void all() throws IOException {
        List<DicomFile> photos = photos(3);
        List<Uid> kept = new CopyOnWriteArrayList<>();
        StorageProvider storage = storage(kept);
        Association association = open(
                giving(paths(photos)), RetrieveUser.getRequest(new AeTitle("VESTIBULE"), MODEL, storage.contexts()));
        RetrieveUser user = new RetrieveUser(association, MODEL);
        for (int i = 0; i < 2; i++) {
            kept.clear();
            assertThat(user.get(QueryLevel.STUDY, STUDY, storage))
                    .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(3, 0, 0)));
            assertThat(kept)
                    .isEqualTo(photos.stream()
                            .map(photo -> photo.sopInstance().orElseThrow())
                            .toList());
        }
    }

    @Test
    @DisplayName("names the objects the requestor would not store, and counts the file that has gone")
    void inPart() throws IOException {
        List<DicomFile> photos = photos(3);
        Uid unwanted = photos.get(1).sopInstance().orElseThrow();
        Files.delete(photos.get(2).path());
        StorageProvider storage = new StorageProvider(
                List.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE),
                List.of(Uids.JPEG_BASELINE8_BIT),
                received,
                1 << 30,
                object -> {
                    if (object.sopInstance().equals(unwanted)) {
                        throw new RefusedException(Status.OUT_OF_RESOURCES, "full");
                    }
                    return Status.SUCCESS;
                });
        Association association = open(
                giving(paths(photos)), RetrieveUser.getRequest(new AeTitle("VESTIBULE"), MODEL, storage.contexts()));
        assertThat(new RetrieveUser(association, MODEL).get(QueryLevel.STUDY, STUDY, storage))
                .isEqualTo(new RetrieveOutcome.DoneInPart(new RetrieveOutcome.Counts(1, 2, 0), List.of(unwanted)));
    }

    @Test
    @DisplayName("without role selection nothing is sent, and the whole is refused")
    void noRole() throws IOException {
        AssociationRequest request = AssociationRequest.of(
                new AeTitle("VESTIBULE"),
                List.of(
                        QueryUser.proposal(MODEL.get()),
                        ProposedContext.of(Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, Uids.JPEG_BASELINE8_BIT)));
        Association association = open(giving(paths(photos(2))), request);
        List<Uid> kept = new ArrayList<>();
        RetrieveOutcome.Refused refused = (RetrieveOutcome.Refused)
                new RetrieveUser(association, MODEL).get(QueryLevel.STUDY, STUDY, storage(kept));
        assertThat(refused.status().code()).isEqualTo(Status.SUBOPERATIONS_NOT_POSSIBLE);
        assertThat(refused.counts()).isEqualTo(new RetrieveOutcome.Counts(0, 2, 0));
        assertThat(kept).isEmpty();
    }

    @Test
    @DisplayName("what the handler refuses is refused, and the association stands")
    void refused() throws IOException {
        StorageProvider storage = storage(new ArrayList<>());
        Association association =
                open(giving(List.of()), RetrieveUser.getRequest(new AeTitle("VESTIBULE"), MODEL, storage.contexts()));
        RetrieveUser user = new RetrieveUser(association, MODEL);
        DataSet other =
                DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.4").build();
        assertThat(((RetrieveOutcome.Refused) user.get(QueryLevel.STUDY, other, storage)).comment())
                .isEqualTo("no such study is kept");
        assertThat(user.get(QueryLevel.STUDY, STUDY, storage))
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(0, 0, 0)));
    }

    @Test
    @DisplayName("a C-CANCEL between two objects ends the retrieve, and the last answer says how many remain")
    void cancelled() throws IOException {
        StorageProvider storage = storage(new ArrayList<>());
        Association association = open(
                giving(paths(photos(3))), RetrieveUser.getRequest(new AeTitle("VESTIBULE"), MODEL, storage.contexts()));
        Command get = Command.get(association.nextMessageId(), MODEL.get());
        DataSet identifier =
                STUDY.toBuilder().put(Attributes.QUERY_RETRIEVE_LEVEL, "STUDY").build();
        var context = association.accepted(MODEL.get()).orElseThrow();
        association.onRequest((on, message) -> {
            on.send(context, Command.cancel(get.messageId()));
            storage.handle(on, message);
        });
        association.send(context, get, identifier);
        Message answer = association.answerTo(get);
        assertThat(answer.command().status()).isEqualTo(Status.CANCELLED);
        assertThat(answer.command().elements().integer(Attributes.NUMBER_OF_REMAINING_SUBOPERATIONS))
                .contains(2L);
        assertThat(answer.command().elements().integer(Attributes.NUMBER_OF_COMPLETED_SUBOPERATIONS))
                .contains(1L);
    }

    @Test
    @DisplayName("DCMTK's getscu is given the study, byte for byte")
    void getscu() throws IOException {
        List<DicomFile> photos = photos(2);
        Path into = Files.createDirectories(folder.resolve("got"));
        Tool.run(
                        folder,
                        "getscu",
                        "-v",
                        "-S",
                        "+xy",
                        "-aec",
                        "ARCHIVE",
                        "-k",
                        "QueryRetrieveLevel=STUDY",
                        "-k",
                        "StudyInstanceUID=1.2.3",
                        "-od",
                        into.toString(),
                        "127.0.0.1",
                        String.valueOf(giving(paths(photos))))
                .succeeded();
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
    }
}
