package vestibule.dicom.jpeg;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Codes a picture again as baseline sequential (T.81 Annex F) with the coefficients it has: turned, mirrored, or only
 * made of a progressive, extended or many-scan stream. No sample is computed, so nothing is lost.
 *
 * <p>The coefficients of a picture are never in memory all at once: what is held is about the length of the file, and ten
 * bytes for each block. The scans of a progressive picture are read side by side, so this holds for it too, but for the
 * blocks that wait to be encoded by another thread: up to 10 MB for each component, whatever its size.
 */
public final class Recoder {
    private static final int[] ALL_DC_CATEGORIES = allDcCategories();

    private final SeekableByteChannel channel;
    private final Jpeg jpeg;
    private final Recoding recoding;
    private final BlockTurn blockTurn;
    private final Plane[] planes;
    private final Blocks[] blocks;
    private final TablePlan tables;
    private long surplusBytes;
    private boolean tablesKept;

    private Recoder(SeekableByteChannel channel, Jpeg jpeg, Recoding recoding) throws JpegFormatException {
        this.channel = channel;
        this.jpeg = jpeg;
        this.recoding = recoding;
        this.blockTurn = BlockTurn.of(recoding.turn());
        this.planes = Decodable.planes(jpeg);
        this.blocks = new Blocks[planes.length];
        for (int component = 0; component < planes.length; component++) {
            blocks[component] = new Blocks(planes[component], component, true);
        }
        this.tables = new TablePlan(jpeg);
    }

    /**
     * Writes the picture anew; nothing is written before all of the source has been decoded.
     *
     * @throws JpegFormatException where the source is damaged, or of a kind that is not decoded here
     * @throws EdgeLossException where the turn would have to leave pixels off and the recoding says to keep them, or
     *     where nothing would be left
     */
    public static Recoded recode(Path source, Recoding recoding, JpegLimits limits, OutputStream target)
            throws IOException {
        try (SeekableByteChannel channel = Files.newByteChannel(source)) {
            return recode(channel, Jpeg.read(channel, limits), recoding, target);
        }
    }

    /** Writes anew a picture that has been walked already; the channel is left open. */
    public static Recoded recode(SeekableByteChannel source, Jpeg jpeg, Recoding recoding, OutputStream target)
            throws IOException {
        Decodable.check(jpeg);
        EdgeLoss loss = recoding.turn().edgeLoss(jpeg.frame());
        checkLoss(jpeg.frame(), recoding, loss);
        return new Recoder(source, jpeg, recoding).run(loss, target);
    }

    private static void checkLoss(Frame frame, Recoding recoding, EdgeLoss loss) throws EdgeLossException {
        boolean nothingLeft = loss.columns() == frame.samplesPerLine() || loss.rows() == frame.lines();
        if (!loss.isNone() && (recoding.edge() == Recoding.Edge.KEEP || nothingLeft)) {
            throw new EdgeLossException(
                    loss,
                    "The picture of " + frame.samplesPerLine() + " x " + frame.lines() + " pixels cannot be turned ("
                            + recoding.turn().name().toLowerCase(Locale.ROOT).replace('_', '-')
                            + ") without leaving off " + loss.words() + (nothingLeft ? ", which is all of it." : "."));
        }
    }

    private Recoded run(EdgeLoss loss, OutputStream target) throws IOException {
        QuantizationPlan quantization = new QuantizationPlan(jpeg, blockTurn.exchangesAxes());
        Frame frame = Layout.turned(jpeg.frame(), recoding.turn(), loss, quantization.selectors());
        Layout layout = new Layout(planes, frame, recoding.turn());
        layout.keepOnlyUsed(blocks, blockTurn.exchangesAxes());
        AcStore[] stores = jpeg.frame().type().isProgressive() ? fromProgressive(layout) : fromSequential(layout);
        for (AcStore store : stores) {
            store.finish();
        }
        int restarts = recoding.restarts() == Recoding.Restarts.KEEP ? jpeg.restartInterval() : 0;
        BaselineWriter writer = new BaselineWriter(frame, layout, tables, quantization, restarts);
        chooseDcTables(writer);
        BitOutput output = new BitOutput(target);
        writer.write(output, metadata(), blocks, stores);
        return new Recoded(frame, recoding.turn(), loss, tablesKept, surplusBytes, output.finish());
    }

    private static int[] allDcCategories() {
        int[] counts = new int[256];
        Arrays.fill(counts, 0, 12, 1);
        return counts;
    }

    private AcStore newStore() {
        return newStore(jpeg.scans());
    }

    private AcStore newStore(int component) {
        return newStore(jpeg.scans().stream()
                .filter(scan ->
                        scan.spectralStart() > 0 && scan.components().get(0).index() == component)
                .toList());
    }

    private AcStore newStore(List<Scan> scans) {
        long expected = scans.stream().mapToLong(scan -> scan.data().length()).sum();
        return new AcStore(expected, jpeg.limits().maxCoefficientBytes());
    }

    /** One store for all components, whose blocks come interleaved. */
    private AcStore[] fromSequential(Layout layout) throws IOException {
        AcStore[] stores = new AcStore[blocks.length];
        Arrays.fill(stores, oneFromSequential(layout));
        return stores;
    }

    private AcStore oneFromSequential(Layout layout) throws IOException {
        boolean standard = recoding.codes() == Recoding.Codes.STANDARD;
        boolean own = tables.sourceFits()
                && tables.canPad(layout)
                && (recoding.codes() == Recoding.Codes.KEPT || (standard && tables.isStandard()));
        AcStore store = newStore();
        if (own) {
            tablesKept = true;
            if (!blockTurn.exchangesAxes()) {
                read(new AcCopier(store, blockTurn.signChanges()));
                return store;
            }
            if (reorder(store)) {
                return store;
            }
            store = newStore();
        }
        tablesKept = false;
        if (standard) {
            tables.useStandard();
        } else {
            ComponentCodes counts = ComponentCodes.counting(tables.slots());
            read(new AcReorderer(new BlockEncoder(store), blockTurn, counts));
            tables.useBestAc(counts, layout);
        }
        if (!reorder(store)) {
            throw new IllegalStateException("the tables were made to have every symbol");
        }
        return store;
    }

    /** Encodes with the tables planned; false when they lack a symbol. */
    private boolean reorder(AcStore store) throws IOException {
        BlockEncoder encoder = new BlockEncoder(store);
        ComponentCodes codes = ComponentCodes.encoding(tables.slots(), tables.acTables());
        read(new AcReorderer(encoder, blockTurn, codes));
        return !encoder.codeMissing();
    }

    private void read(BlockReader reader) throws IOException {
        SequentialScans scans = new SequentialScans(channel, jpeg);
        scans.read(blocks, reader);
        surplusBytes = scans.surplusBytes();
    }

    /** A store for each component, since they are read at the same time. */
    private AcStore[] fromProgressive(Layout layout) throws IOException {
        AcStore[] stores = new AcStore[blocks.length];
        for (int component = 0; component < stores.length; component++) {
            stores[component] = newStore(component);
        }
        if (recoding.codes() != Recoding.Codes.OPTIMAL) {
            tables.useStandard();
        } else {
            ComponentCodes counts = ComponentCodes.counting(tables.slots());
            readProgressive(stores, counts);
            tables.useBestAc(counts, layout);
        }
        readProgressive(stores, ComponentCodes.encoding(tables.slots(), tables.acTables()));
        return stores;
    }

    private void readProgressive(AcStore[] stores, ComponentCodes codes) throws IOException {
        ProgressiveScans scans = new ProgressiveScans(channel, jpeg, blocks);
        scans.read(component ->
                new ProgressiveEncoding(blockTurn, new BlockEncoder(stores[component.component()]), codes, component));
        surplusBytes = scans.surplusBytes();
    }

    /** Makes DC tables where there are none yet, or where those there are lack a code for a difference. */
    private void chooseDcTables(BaselineWriter writer) throws IOException {
        boolean complete = true;
        for (int component = 0; component < blocks.length; component++) {
            HuffmanTable planned = tables.dc(component);
            complete &= planned != null && new HuffmanCoder(planned).covers(ALL_DC_CATEGORIES);
        }
        if (complete && recoding.codes() != Recoding.Codes.OPTIMAL) {
            return;
        }
        int[][] counts = writer.countDc(blocks);
        for (int slot : tables.slots()) {
            HuffmanTable planned = tables.dcInSlot(slot);
            boolean covered = planned != null && new HuffmanCoder(planned).covers(counts[slot]);
            if (!covered || recoding.codes() == Recoding.Codes.OPTIMAL) {
                tables.setDc(slot, OptimalTable.of(counts[slot]));
                tablesKept = false;
            }
        }
    }

    /** The segments that colour needs, byte for byte. */
    private List<byte[]> metadata() throws IOException {
        List<byte[]> segments = new ArrayList<>();
        StreamReader reader = new StreamReader(channel);
        for (Segment segment : jpeg.segments()) {
            if (segment.kind().isMetadata() && Essential.travels(segment, jpeg, true)) {
                segments.add(reader.bytes(segment.offset(), (int) segment.length()));
            }
        }
        return segments;
    }
}
