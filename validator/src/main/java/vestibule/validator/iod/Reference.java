package vestibule.validator.iod;

import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Element;
import vestibule.dicom.data.Tag;
import vestibule.dicom.data.Value;

/**
 * An attribute that a condition speaks of.
 *
 * @param from where to look
 * @param sequence for {@link From#BELOW}: the sequence in whose items it is looked for, at any depth
 * @param tag the attribute
 * @param index which of its values, from 1; 0 for any of them
 */
record Reference(From from, Optional<Tag> sequence, Tag tag, int index) {

    /** Where to look for an attribute. */
    enum From {
        HERE,
        ROOT,
        OUTER,
        BELOW
    }

    Optional<Element> find(Scope scope) {
        return switch (from) {
            case HERE -> scope.dataSet().find(tag);
            case ROOT -> scope.root().dataSet().find(tag);
            case OUTER ->
                Optional.ofNullable(scope.outer())
                        .flatMap(outer -> outer.dataSet().find(tag));
            case BELOW -> sequence.flatMap(scope.dataSet()::find).flatMap(this::below);
        };
    }

    private Optional<Element> below(Element element) {
        if (!(element.value() instanceof Value.Items items)) {
            return Optional.empty();
        }
        for (DataSet item : items.all()) {
            Optional<Element> found = item.find(tag)
                    .or(() -> item.stream()
                            .flatMap(inner -> below(inner).stream())
                            .findFirst());
            if (found.isPresent()) {
                return found;
            }
        }
        return Optional.empty();
    }

    /** The values as text, or only the one that the index names. */
    List<String> values(Scope scope) {
        List<String> all = find(scope).map(Values::texts).orElse(List.of());
        if (index == 0) {
            return all;
        }
        return index <= all.size() ? List.of(all.get(index - 1)) : List.of();
    }
}
