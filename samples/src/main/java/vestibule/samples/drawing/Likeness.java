package vestibule.samples.drawing;

import java.util.Map;

/**
 * What an invented person looks like.
 *
 * @param skin sRGB, 0xRRGGBB, as the other colours
 * @param hair colour of hair and brows
 * @param longHair whether the hair reaches the shoulders
 * @param iris colour of the eyes
 * @param enamel colour of sound teeth
 * @param clothes colour of what is worn
 * @param primaryTeeth true for a child with all twenty primary teeth (51 to 85), else the permanent ones (11 to 47)
 * @param teeth what is special about teeth, by ISO 3950 number
 */
public record Likeness(
        int skin,
        int hair,
        boolean longHair,
        int iris,
        int enamel,
        int clothes,
        boolean primaryTeeth,
        Map<Integer, ToothState> teeth) {
    public Likeness {
        teeth = Map.copyOf(teeth);
    }

    /** The same person at a stage of treatment. */
    Likeness with(int tooth, ToothState state) {
        Map<Integer, ToothState> changed = new java.util.TreeMap<>(teeth);
        changed.put(tooth, state);
        return new Likeness(skin, hair, longHair, iris, enamel, clothes, primaryTeeth, changed);
    }

    ToothState state(int tooth) {
        return teeth.getOrDefault(tooth, ToothState.SOUND);
    }
}
