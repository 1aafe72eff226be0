package vestibule.bridge.view;

import java.util.List;
import java.util.Optional;

/**
 * The views a sitting should contain, in filing order. A set is a list to check against, never a reason to refuse a photograph.
 *
 * @param id the name commands use, as {@code ortho-records-8}
 * @param name the name in words
 * @param use what it is for
 * @param places its places, in order; the first has position 1
 */
public record PhotoSet(String id, String name, String use, List<Place> places) {

    public PhotoSet {
        places = List.copyOf(places);
    }

    /**
     * One place in a set.
     *
     * @param position from 1
     * @param views the views that may fill it, the usual one first
     * @param required whether the set has a gap without it
     * @param repeat whether several photographs may stand here
     * @param stage the stage of treatment it belongs to
     */
    public record Place(int position, List<String> views, boolean required, boolean repeat, Optional<String> stage) {

        public Place {
            views = List.copyOf(views);
        }

        /** The place in words, for a list of gaps. */
        public String words(ViewCatalogue catalogue) {
            String names = String.join(
                    " or ",
                    views.stream()
                            .map(id -> catalogue.view(id).map(View::label).orElse(id))
                            .toList());
            return stage.map(text -> names + ", " + text).orElse(names);
        }
    }
}
