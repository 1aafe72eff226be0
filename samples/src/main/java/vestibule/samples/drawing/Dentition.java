package vestibule.samples.drawing;

/** Both jaws of a person. */
final class Dentition {
    final Jaw upper;
    final Jaw lower;
    private final Likeness likeness;

    /** @param gape how far the jaws are apart, millimetres */
    Dentition(Likeness likeness, double gape) {
        this.likeness = likeness;
        upper = new Jaw(true, likeness, 0);
        lower = new Jaw(false, likeness, gape);
    }

    void addUpper(Scene scene) {
        addRow(scene, upper);
        scene.addAll(new Gum(upper).meshes());
        scene.add(new Palate(upper).roof(24));
    }

    void addLower(Scene scene) {
        addRow(scene, lower);
        scene.addAll(new Gum(lower).meshes());
        scene.add(new Palate(lower).floor(24));
    }

    private void addRow(Scene scene, Jaw jaw) {
        for (PlacedTooth tooth : jaw.teeth()) {
            if (tooth.state() == ToothState.IMPLANT) {
                scene.add(Dental.healingCap(tooth));
            } else if (tooth.stands()) {
                scene.add(tooth.crown(Dental.of(tooth, likeness)));
            }
            if (tooth.state() == ToothState.JEWEL) {
                scene.add(Dental.jewel(tooth));
            }
        }
    }

    PlacedTooth tooth(int number) {
        boolean above = switch (number / 10) {
            case 1, 2, 5, 6 -> true;
            default -> false;
        };
        return (above ? upper : lower).tooth(number);
    }
}
