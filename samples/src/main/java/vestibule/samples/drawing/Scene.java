package vestibule.samples.drawing;

import java.util.ArrayList;
import java.util.List;

/** What stands before the camera. */
final class Scene {
    private final List<Mesh> solid = new ArrayList<>();
    private final List<Mesh> clear = new ArrayList<>();
    private Tint backdropCentre = Tint.of(0x4a1414);
    private Tint backdropEdge = Tint.of(0x300c0c);
    private double fadeFrom = 15;
    private double fadeLength = 60;

    void add(Mesh mesh) {
        (mesh.clear ? clear : solid).add(mesh);
    }

    void addAll(List<Mesh> meshes) {
        meshes.forEach(this::add);
    }

    /** What is seen where nothing stands. */
    void backdrop(Tint centre, Tint edge) {
        backdropCentre = centre;
        backdropEdge = edge;
    }

    /** From this depth behind the target on, the flash gets weaker, to a quarter after {@code length} more. */
    void fade(double from, double length) {
        fadeFrom = from;
        fadeLength = length;
    }

    List<Mesh> solid() {
        return solid;
    }

    List<Mesh> clear() {
        return clear;
    }

    Tint backdropCentre() {
        return backdropCentre;
    }

    Tint backdropEdge() {
        return backdropEdge;
    }

    double flash(double depth) {
        double f = 1 + Math.max(0, depth - fadeFrom) / fadeLength;
        return 1 / (f * f);
    }
}
