package vestibule.samples.drawing;

/** A scene with its camera. */
record Setting(Scene scene, Camera camera) {
    private static final Vector3 FEET = new Vector3(0, 0, -1);
    private static final double CLOSE = 260;
    private static final double FAR = 1500;

    /**
     * Sets the stage for a view.
     *
     * @param ratio width of the picture to its height
     */
    static Setting of(String view, Likeness person, int tooth, double ratio) {
        if (view.startsWith("face-")) {
            return face(view, person, ratio);
        }
        if (view.startsWith("smile-")) {
            return smile(view, person);
        }
        if (view.startsWith("cast-")) {
            return cast(view, person);
        }
        if (view.startsWith("occlusal-")) {
            return occlusal(view.contains("maxillary"), person);
        }
        if (tooth != 0) {
            return close(view, person, tooth);
        }
        return retracted(view, person);
    }

    /** Rows for a camera gone round the head by degrees from the front, to the patient's right or left. */
    private static Vector3 rows(double degrees, boolean right) {
        double turn = Math.toRadians(degrees);
        return new Vector3(Math.cos(turn), right ? -Math.sin(turn) : Math.sin(turn), 0);
    }

    private static double size(Likeness person) {
        return person.primaryTeeth() ? 0.78 : 1;
    }

    private static Setting face(String view, Likeness person, double ratio) {
        double degrees = view.contains("-profile-") ? 90 : view.contains("-oblique-") ? 45 : 0;
        boolean right = !view.contains("-left-");
        Head.Mouth mouth = view.endsWith("smile")
                ? Head.Mouth.SMILE
                : view.endsWith("lips-apart") ? Head.Mouth.APART : Head.Mouth.CLOSED;
        Scene scene = new Scene();
        scene.addAll(new Head(person, mouth).meshes());
        Dentition dentition = new Dentition(person, 0);
        dentition.addUpper(scene);
        dentition.addLower(scene);
        scene.backdrop(Tint.of(0x46617e), Tint.of(0x22344a));
        scene.fade(110, 420);
        double back = 75 * Math.sin(Math.toRadians(degrees));
        Vector3 target = new Vector3(0, back, 34).times(size(person));
        return new Setting(scene, new Camera(rows(degrees, right), FEET, target, FAR, 345 * size(person) * ratio));
    }

    private static Setting smile(String view, Likeness person) {
        double degrees = view.contains("-oblique-") ? 45 : 0;
        boolean right = view.contains("-right");
        Scene scene = new Scene();
        scene.addAll(new Head(person, Head.Mouth.SMILE).meshes());
        Dentition dentition = new Dentition(person, 0);
        dentition.addUpper(scene);
        dentition.addLower(scene);
        scene.backdrop(Tint.of(0x46617e), Tint.of(0x22344a));
        scene.fade(22, 45);
        double side = degrees > 0 ? (right ? -8 : 8) : 0;
        Vector3 target = new Vector3(side, 4, -1).times(size(person));
        return new Setting(scene, new Camera(rows(degrees, right), FEET, target, 420, 84 * size(person)));
    }

    private static Setting retracted(String view, Likeness person) {
        boolean right = view.contains("-right");
        boolean buccal = view.contains("-buccal-");
        double degrees = buccal
                ? (view.endsWith("mirror") ? 84 : 70)
                : view.contains("-oblique-") ? 45 : view.contains("-overjet-") ? 88 : 0;
        double gape = view.endsWith("apart") ? 6 : 0;
        double size = size(person);
        Vector3 target = new Vector3(right ? -1 : 1, 0, 0)
                .times(degrees > 0 ? 21 * Math.sin(Math.toRadians(degrees)) : 0)
                .plus(new Vector3(0, 7 + (buccal ? 15 : 2 * Math.sin(Math.toRadians(degrees))), -gape / 2))
                .times(size);
        if (view.contains("-overjet-")) {
            target = new Vector3(right ? -7 : 7, 3, 0).times(size);
        }
        double width = 72 * (view.contains("-overjet-") ? 0.55 : 1) * size;
        Scene scene = new Scene();
        Dentition dentition = new Dentition(person, gape);
        dentition.addUpper(scene);
        dentition.addLower(scene);
        Camera camera = new Camera(rows(degrees, right), FEET, target, CLOSE, width);
        boolean leftHook = degrees == 0 || right;
        boolean rightHook = degrees == 0 || !right;
        scene.addAll(new LipFrame(camera, 33 * size, 20.5 * size, person).meshes(leftHook, rightHook));
        scene.fade(degrees > 0 ? 20 : 14, 34);
        return new Setting(scene, camera);
    }

    private static Setting occlusal(boolean upper, Likeness person) {
        double size = size(person);
        Scene scene = new Scene();
        Dentition dentition = new Dentition(person, 0);
        if (upper) {
            dentition.addUpper(scene);
        } else {
            dentition.addLower(scene);
            scene.add(new Palate(dentition.lower).tongue());
        }
        Vector3 columns = new Vector3(0, upper ? 1 : -1, 0);
        Vector3 target = new Vector3(0, 25, 0).times(size);
        Camera camera = new Camera(new Vector3(1, 0, 0), columns, target, CLOSE, 90 * size);
        scene.addAll(new LipFrame(camera, 41 * size, 36 * size, person).meshes(false, false));
        scene.fade(24, 60);
        return new Setting(scene, camera);
    }

    private static Setting close(String view, Likeness person, int tooth) {
        double size = size(person);
        double gape = view.equals("shade-tab") ? 14 : 1.5;
        Likeness shown = view.equals("treatment-stage") ? person.with(tooth, ToothState.IMPLANT) : person;
        Scene scene = new Scene();
        Dentition dentition = new Dentition(shown, gape * size);
        dentition.addUpper(scene);
        dentition.addLower(scene);
        PlacedTooth placed = dentition.tooth(tooth);
        Vector3 middle = placed.at(0, placed.shape().front(0.5), placed.shape().height() * 0.5);
        Vector3 edge = placed.at(0, placed.shape().front(1), placed.shape().height());
        boolean tab = view.equals("shade-tab");
        if (tab) {
            scene.addAll(ShadeTab.below(edge, placed.shape()));
        }
        double down = tab ? -9.5 : 0;
        Vector3 target = new Vector3(middle.x(), middle.y(), middle.z() + down);
        Camera camera = new Camera(new Vector3(1, 0, 0), FEET, target, CLOSE, (tab ? 50 : 40) * size);
        Camera lips = new Camera(camera.rows(), FEET, new Vector3(0, 8, 0), CLOSE, 72);
        scene.addAll(new LipFrame(lips, 33 * size, (tab ? 29 : 21) * size, person).meshes(false, false));
        scene.fade(12, 30);
        return new Setting(scene, camera);
    }

    private static Setting cast(String view, Likeness person) {
        double size = size(person);
        boolean right = view.contains("-right");
        boolean occlusal = view.contains("-occlusal-");
        Scene scene = new Scene();
        Dentition dentition = new Dentition(person, 0);
        PlasterCast plaster = new PlasterCast(dentition);
        if (!view.contains("mandibular")) {
            scene.addAll(plaster.upper());
        }
        if (!view.contains("maxillary")) {
            scene.addAll(plaster.lower());
        }
        scene.backdrop(Tint.of(0x2c3e52), Tint.of(0x18232f));
        scene.fade(60, 200);
        Vector3 target = new Vector3(0, 24, 0).times(size);
        if (occlusal) {
            Vector3 columns = new Vector3(0, view.contains("maxillary") ? 1 : -1, 0);
            return new Setting(scene, new Camera(new Vector3(1, 0, 0), columns, target, 500, 118 * size));
        }
        double degrees = view.contains("-buccal-") ? 90 : 0;
        return new Setting(scene, new Camera(rows(degrees, right), FEET, target, 500, 110 * size));
    }
}
