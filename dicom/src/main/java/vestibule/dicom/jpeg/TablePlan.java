package vestibule.dicom.jpeg;

import org.jspecify.annotations.Nullable;

/**
 * Which Huffman tables of the outcome each component uses: two slots of each class, which is what a baseline picture may
 * have (T.81 B.2.4.2), filled with the source's tables or with others.
 */
final class TablePlan {
    private static final int END_OF_BLOCK = 0x00;

    private final ColorCoding coding;
    private final int[] slots;
    private final @Nullable HuffmanTable[] dc = new @Nullable HuffmanTable[2];
    private final @Nullable HuffmanTable[] ac = new @Nullable HuffmanTable[2];
    private final boolean sourceFits;

    /** Plans for the components of a walked picture. */
    TablePlan(Jpeg jpeg) {
        int count = jpeg.frame().components().size();
        coding = jpeg.color().coding();
        slots = new int[count];
        sourceFits = !jpeg.frame().type().isProgressive() && takeFromSource(jpeg);
        if (!sourceFits) {
            spread();
        }
    }

    private int usualSlot(int component) {
        boolean transformed = coding == ColorCoding.YCBCR || coding == ColorCoding.YCCK;
        return transformed && (component == 1 || component == 2) ? 1 : 0;
    }

    private boolean takeFromSource(Jpeg jpeg) {
        for (int number = 0; number < jpeg.scans().size(); number++) {
            for (ScanComponent component : jpeg.scans().get(number).components()) {
                HuffmanTable sourceDc = ScanTables.present(jpeg.tables(number).dc(component.dcTable()));
                HuffmanTable sourceAc = ScanTables.present(jpeg.tables(number).ac(component.acTable()));
                int slot = slotFor(sourceDc, sourceAc, component.acTable() == 0 ? 0 : 1);
                if (slot < 0) {
                    return false;
                }
                slots[component.index()] = slot;
                dc[slot] = sourceDc;
                ac[slot] = sourceAc;
            }
        }
        return true;
    }

    /** The slot that holds just this pair, or a free one, the preferred first; -1 when both are taken by others. */
    private int slotFor(HuffmanTable sourceDc, HuffmanTable sourceAc, int preferred) {
        for (int slot : new int[] {preferred, 1 - preferred}) {
            HuffmanTable heldDc = dc[slot];
            HuffmanTable heldAc = ac[slot];
            if (heldDc != null && heldAc != null && heldDc.sameCodes(sourceDc) && heldAc.sameCodes(sourceAc)) {
                return slot;
            }
        }
        if (ac[preferred] == null) {
            return preferred;
        }
        return ac[1 - preferred] == null ? 1 - preferred : -1;
    }

    /** Whether the source's own tables fill the slots. */
    boolean sourceFits() {
        return sourceFits;
    }

    /** Forgets the tables, and gives the colour differences a slot of their own. */
    private void spread() {
        for (int component = 0; component < slots.length; component++) {
            slots[component] = usualSlot(component);
        }
        for (int slot = 0; slot < 2; slot++) {
            dc[slot] = null;
            ac[slot] = null;
        }
    }

    /** Fills the slots with the typical tables. */
    void useStandard() {
        spread();
        dc[0] = StandardTables.DC_LUMINANCE;
        ac[0] = StandardTables.AC_LUMINANCE;
        dc[1] = StandardTables.DC_CHROMINANCE;
        ac[1] = StandardTables.AC_CHROMINANCE;
    }

    boolean isStandard() {
        for (int component = 0; component < slots.length; component++) {
            HuffmanTable first = dc(component);
            HuffmanTable second = ac(component);
            boolean luminance = usualSlot(component) == 0;
            if (slots[component] != usualSlot(component)
                    || first == null
                    || second == null
                    || !first.sameCodes(luminance ? StandardTables.DC_LUMINANCE : StandardTables.DC_CHROMINANCE)
                    || !second.sameCodes(luminance ? StandardTables.AC_LUMINANCE : StandardTables.AC_CHROMINANCE)) {
                return false;
            }
        }
        return true;
    }

    /** Whether the tables can say "end of block" wherever a block is only there to make up a whole unit. */
    boolean canPad(Layout layout) {
        for (int component = 0; component < slots.length; component++) {
            HuffmanTable table = ac(component);
            boolean pads = layout.paddingBlocks(component) > 0;
            if (pads && (table == null || new HuffmanCoder(table).code(END_OF_BLOCK) == 0)) {
                return false;
            }
        }
        return true;
    }

    /** Replaces the AC tables by the best for what was counted. */
    void useBestAc(ComponentCodes counted, Layout layout) {
        for (int slot : slots) {
            int[] counts = counted.counts(slot);
            for (int component = 0; component < slots.length; component++) {
                counts[END_OF_BLOCK] += slots[component] == slot ? layout.paddingBlocks(component) : 0;
            }
            ac[slot] = OptimalTable.of(counts);
        }
    }

    @Nullable HuffmanTable dcInSlot(int slot) {
        return dc[slot];
    }

    void setDc(int slot, HuffmanTable table) {
        dc[slot] = table;
    }

    int[] slots() {
        return slots.clone();
    }

    int slot(int component) {
        return slots[component];
    }

    @Nullable HuffmanTable dc(int component) {
        return dc[slots[component]];
    }

    @Nullable HuffmanTable ac(int component) {
        return ac[slots[component]];
    }

    @Nullable HuffmanTable[] acTables() {
        return ac.clone();
    }
}
