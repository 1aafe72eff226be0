package vestibule.validator.iod;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.data.Tag;

/** The attributes of one data set: the outermost, or an item of one sequence. All modules' statements stand together. */
final class Level {

    /** One attribute at this level. */
    static final class Node {
        private final Tag tag;
        private final List<Statement> statements = new ArrayList<>();
        private @Nullable Level content;

        /** Found out when first asked for, when the tables have been read; the same whoever asks first. */
        private volatile @Nullable Boolean mayBeNeeded;

        private Node(Tag tag) {
            this.tag = tag;
        }

        Tag tag() {
            return tag;
        }

        List<Statement> statements() {
            return statements;
        }

        /** Whether it may have to be there; one that is not and need not be is none to look at. */
        boolean mayBeNeeded() {
            Boolean known = mayBeNeeded;
            if (known == null) {
                known = statements.stream()
                        .anyMatch(statement -> statement.type().needsPresence());
                mayBeNeeded = known;
            }
            return known;
        }

        /** What an item of it holds; empty where it is no sequence, or any attribute may stand in its items. */
        Optional<Level> content() {
            return Optional.ofNullable(content);
        }
    }

    private final TreeMap<Tag, Node> own = new TreeMap<>();
    private @Nullable Level macro;
    /** Put together when first asked for, when the tables have been read; the same whoever asks first. */
    private volatile @Nullable Collection<Node> merged;

    Node node(Tag tag) {
        return own.computeIfAbsent(tag, Node::new);
    }

    Level contentOf(Tag tag) {
        Node node = node(tag);
        Level content = node.content;
        if (content == null) {
            content = new Level();
            node.content = content;
        }
        return content;
    }

    void include(Level shared) {
        macro = shared;
    }

    Optional<Node> find(Tag tag) {
        Node found = own.get(tag);
        return found == null && macro != null ? macro.find(tag) : Optional.ofNullable(found);
    }

    /** Own attributes and those of the macro, by tag. */
    Collection<Node> nodes() {
        Collection<Node> known = merged;
        if (known == null) {
            Map<Tag, Node> all = macro == null ? new TreeMap<>() : new TreeMap<>(macro.own);
            all.putAll(own);
            known = List.copyOf(all.values());
            merged = known;
        }
        return known;
    }
}
