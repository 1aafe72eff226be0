package vestibule.bridge.view;

/** A look at the pixels of a photograph: whether it can be the view that its place in a set says. It never names a view by itself. */
@FunctionalInterface
public interface PictureCheck {

    /** What a look tells. */
    enum Opinion {
        /** The picture looks like that view and unlike its neighbours in a set. */
        AGREES,
        /** The picture cannot be that view. */
        CONTRADICTS,
        /** Nothing can be told. */
        SILENT
    }

    /** What a look at the photograph tells of that view. */
    Opinion of(Shot shot, View view);
}
