package vestibule.dicom.io;

import java.lang.reflect.Field;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;

/** Data sets that the standard allows, drawn from a seed: every representation, nested, in any alphabet of UTF-8. */
final class RandomDataSets {

    private static final String LETTERS = "ABCXYZabcxyz0189 .-äéßŁŻИванΔιο山田太郎やまだ𠮷";
    private static final List<Attribute> NAMED = named();

    private final Random random;
    private final TransferSyntax syntax;
    private final int longest;

    /** @param longest the longest run of bytes; the reader leaves runs of more than 64 KB in the file, where they compare by place */
    RandomDataSets(Random random, TransferSyntax syntax, int longest) {
        this.random = random;
        this.syntax = syntax;
        this.longest = longest;
    }

    private static List<Attribute> named() {
        List<Attribute> all = new ArrayList<>();
        for (Field field : Attributes.class.getFields()) {
            try {
                Attribute attribute = (Attribute) field.get(null);
                int group = attribute.tag().group();
                boolean ruled =
                        attribute.equals(Attributes.SPECIFIC_CHARACTER_SET) || attribute.equals(Attributes.PIXEL_DATA);
                if (group > 2 && !ruled && !attribute.tag().isGroupLength()) {
                    all.add(attribute);
                }
            } catch (IllegalAccessException e) {
                throw new AssertionError(e);
            }
        }
        return all;
    }

    DataSet next() {
        DataSet.Builder builder = dataSet(3).put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 192");
        if (syntax.encapsulated()) {
            List<Bulk> fragments = times(0, 4, () -> bytes(2 * random.nextInt(1, 200)));
            List<Long> offsets = times(0, 3, () -> random.nextLong(1L << 32));
            builder.put(new Element(Attributes.PIXEL_DATA.tag(), VR.OB, new Value.Fragments(offsets, fragments)));
        }
        return builder.build();
    }

    private <T> List<T> times(int least, int below, Supplier<T> one) {
        return IntStream.range(0, random.nextInt(least, below))
                .mapToObj(i -> one.get())
                .toList();
    }

    private DataSet.Builder dataSet(int depth) {
        DataSet.Builder builder = DataSet.builder();
        for (int i = random.nextInt(12); i > 0; i--) {
            Attribute attribute = NAMED.get(random.nextInt(NAMED.size()));
            boolean oneRepresentation = Dictionary.standard()
                            .find(attribute.tag())
                            .orElseThrow()
                            .representations()
                            .size()
                    == 1;
            if (oneRepresentation || syntax.explicit()) {
                int count = allowed(attribute);
                builder.put(new Element(attribute.tag(), attribute.vr(), value(attribute.vr(), count, depth)));
            }
        }
        builder.put(new Element(Tag.of(0x0009, 0x0010), VR.LO, new Value.Texts(List.of("VESTIBULE TEST"))));
        int element = 0x1000;
        for (VR vr : VR.values()) {
            element++;
            if (random.nextInt(4) == 0 && (syntax.explicit() || vr == VR.UN)) {
                Tag tag = Tag.of(0x0009, element);
                builder.put(new Element(tag, vr, value(vr, random.nextInt(4), depth)));
            }
        }
        return builder;
    }

    private int allowed(Attribute attribute) {
        int count = random.nextInt(7);
        return count == 0 || attribute.multiplicity().allows(count)
                ? count
                : attribute.multiplicity().least();
    }

    private Value value(VR vr, int count, int depth) {
        return switch (vr.kind()) {
            case TEXT -> new Value.Texts(texts(vr, vr.severalValues() ? count : Math.min(count, 1)));
            case INTEGER ->
                new Value.Integers(
                        IntStream.range(0, count).mapToObj(i -> integer(vr)).toList());
            case REAL ->
                new Value.Reals(IntStream.range(0, count)
                        .mapToObj(i -> vr == VR.FL ? (double) random.nextFloat() : random.nextGaussian())
                        .toList());
            case BINARY ->
                new Value.Binary(
                        bytes(vr.unitBytes() * 2 * random.nextInt(random.nextInt(20) == 0 ? longest / 16 : 40)));
            case SEQUENCE ->
                new Value.Items(
                        depth == 0
                                ? List.of()
                                : times(0, 3, () -> dataSet(depth - 1).build()));
        };
    }

    private List<String> texts(VR vr, int count) {
        return IntStream.range(0, count).mapToObj(i -> text(vr)).toList();
    }

    private long integer(VR vr) {
        long bits = random.nextLong();
        return switch (vr) {
            case US -> bits & 0xFFFF;
            case SS -> (short) bits;
            case UL, AT -> bits & 0xFFFF_FFFFL;
            case SL -> (int) bits;
            default -> bits;
        };
    }

    private Bulk bytes(int count) {
        byte[] bytes = new byte[count];
        random.nextBytes(bytes);
        return Bulk.of(bytes);
    }

    private String text(VR vr) {
        return switch (vr) {
            case AE, CS -> "A_" + random.nextInt(10_000);
            case AS -> "%03d%c".formatted(random.nextInt(1000), "DWMY".charAt(random.nextInt(4)));
            case DA -> "%04d%02d%02d".formatted(random.nextInt(10_000), random.nextInt(1, 13), random.nextInt(1, 29));
            case DS -> Float.toString(random.nextFloat());
            case DT -> "%04d%02d".formatted(random.nextInt(10_000), random.nextInt(1, 13));
            case IS -> Integer.toString(random.nextInt());
            case TM -> "%02d%02d".formatted(random.nextInt(24), random.nextInt(60));
            case UI -> Uid.random(random).value();
            case UR -> "https://dental.example/" + random.nextInt();
            case PN -> letters(10) + "^" + letters(10) + "=" + letters(5) + "=" + letters(5);
            case LT, ST, UT -> letters(200) + "\\\r\n\t" + letters(40);
            default -> letters(16);
        };
    }

    /** Letters that end in no space, for a reader takes those for padding. */
    private String letters(int most) {
        int[] points = LETTERS.codePoints().toArray();
        StringBuilder text = new StringBuilder();
        for (int i = random.nextInt(most); i > 0; i--) {
            text.appendCodePoint(points[random.nextInt(points.length)]);
        }
        String ended = text.toString().stripTrailing();
        return ended.isEmpty() ? "x" : ended;
    }
}
