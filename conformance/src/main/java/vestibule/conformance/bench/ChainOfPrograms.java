package vestibule.conformance.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;

/** What somebody would do with other people's programs: hash, turn, wrap, check, send. */
final class ChainOfPrograms {

    private static final String WRAP = """
            import sys, os
            from pydicom.dataset import FileDataset, FileMetaDataset
            from pydicom.encaps import encapsulate
            from pydicom.uid import generate_uid
            source, target = sys.argv[1:3]
            study, series = generate_uid(), generate_uid()
            for number, name in enumerate(sorted(os.listdir(source))):
                with open(os.path.join(source, name), 'rb') as file:
                    picture = file.read()
                meta = FileMetaDataset()
                meta.MediaStorageSOPClassUID = '1.2.840.10008.5.1.4.1.1.77.1.4'
                meta.MediaStorageSOPInstanceUID = generate_uid()
                meta.TransferSyntaxUID = '1.2.840.10008.1.2.4.50'
                path = os.path.join(target, name + '.dcm')
                ds = FileDataset(path, {}, file_meta=meta, preamble=b'\\0' * 128)
                ds.is_little_endian, ds.is_implicit_VR = True, False
                ds.SOPClassUID = meta.MediaStorageSOPClassUID
                ds.SOPInstanceUID = meta.MediaStorageSOPInstanceUID
                ds.StudyInstanceUID, ds.SeriesInstanceUID = study, series
                ds.PatientName, ds.PatientID, ds.Modality = 'Exempel^Zoe', 'PG-0001', 'XC'
                ds.InstanceNumber = number
                ds.SamplesPerPixel, ds.PhotometricInterpretation, ds.PlanarConfiguration = 3, 'YBR_FULL_422', 0
                ds.Rows, ds.Columns = 3000, 4000
                ds.BitsAllocated = ds.BitsStored = 8
                ds.HighBit, ds.PixelRepresentation = 7, 0
                ds.LossyImageCompression = '01'
                ds.PixelData = encapsulate([picture])
                ds['PixelData'].is_undefined_length = True
                ds.save_as(path)
            """;

    private static final String CHAIN = """
            rm -rf upright objects; mkdir upright objects
            sha256sum "$1"/*/* >sums
            for file in "$1"/*/*; do
              case "$file" in
                *mirror*) jpegtran -copy none -flip vertical -outfile "upright/${file##*/}" "$file" ;;
                *) cp "$file" upright/ ;;
              esac
            done
            /usr/bin/python3 wrap.py upright objects
            for file in objects/*; do dciodvfy "$file" >checked 2>&1 || true; done
            storescu -xy +sd -aec ARCHIVE 127.0.0.1 "$2" objects
            """;

    private final Path folder;
    private final Path card;
    private final int port;

    ChainOfPrograms(Path folder, Path card, int port) {
        this.folder = folder;
        this.card = card;
        this.port = port;
    }

    /** How long it takes to bring the card into the archive. */
    double seconds(boolean withoutDelay) throws IOException, InterruptedException {
        Files.writeString(folder.resolve("wrap.py"), WRAP);
        String script = withoutDelay ? "export TCP_NODELAY=1\n" + CHAIN : CHAIN;
        return DeliveryBench.seconds(
                folder,
                List.of("bash", "-ec", script, "chain", card.toString(), Integer.toString(port)),
                Duration.ofHours(1));
    }
}
