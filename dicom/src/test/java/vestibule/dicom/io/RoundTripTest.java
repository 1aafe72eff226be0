package vestibule.dicom.io;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DataSetCodec.Strictness;

@DisplayName("What is written is read back the same")
class RoundTripTest {

    @TempDir
    private Path folder;

    private static TransferSyntax syntax(String uid) {
        return TransferSyntax.of(new Uid(uid)).orElseThrow();
    }

    @ParameterizedTest
    @DisplayName("for 200 random data sets")
    @ValueSource(strings = {"1.2.840.10008.1.2", "1.2.840.10008.1.2.1", "1.2.840.10008.1.2.4.50"})
    void messages(String uid) throws IOException {
        long seed = new Random().nextLong();
        RandomDataSets dataSets = new RandomDataSets(new Random(seed), syntax(uid), 100_000);
        for (int round = 0; round < 200; round++) {
            DataSet dataSet = dataSets.next();
            byte[] bytes = DataSetCodec.encode(dataSet, syntax(uid), Strictness.OBJECT);
            DataSet read = DataSetCodec.decode(bytes, syntax(uid));
            assertThat(read.elements()).as("round %d of seed %d", round, seed).isEqualTo(dataSet.elements());
            assertThat(DataSetCodec.encode(read, syntax(uid), Strictness.OBJECT))
                    .as("bytes of round %d of seed %d", round, seed)
                    .isEqualTo(bytes);
        }
    }

    @ParameterizedTest
    @DisplayName("for 100 random files, whose meta information is found where its group length says")
    @ValueSource(strings = {"1.2.840.10008.1.2", "1.2.840.10008.1.2.1", "1.2.840.10008.1.2.4.50"})
    void files(String uid) throws IOException {
        long seed = new Random().nextLong();
        RandomDataSets dataSets = new RandomDataSets(new Random(seed), syntax(uid), 1 << 16);
        Path target = folder.resolve("file.dcm");
        for (int round = 0; round < 100; round++) {
            DataSet dataSet = dataSets.next().toBuilder()
                    .put(Attributes.SOP_CLASS_UID, "1.2.3")
                    .put(Attributes.SOP_INSTANCE_UID, "1.2.3." + round)
                    .build();
            DicomFile.write(target, dataSet, syntax(uid));
            DicomFile file = DicomFile.read(target);
            assertThat(file.notes()).as("round %d of seed %d", round, seed).isEmpty();
            assertThat(file.dataSet().elements())
                    .as("round %d of seed %d", round, seed)
                    .isEqualTo(dataSet.elements());
            assertThat(file.transferSyntax()).isEqualTo(syntax(uid));
            assertThat(file.meta().toBuilder()
                            .remove(Attributes.FILE_META_INFORMATION_GROUP_LENGTH)
                            .build())
                    .isEqualTo(DicomFile.metaInformation(dataSet, syntax(uid)));
        }
    }
}
