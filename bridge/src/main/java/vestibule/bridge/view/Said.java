package vestibule.bridge.view;

/**
 * A person's word about a photograph.
 *
 * @param about {@code view}, {@code capture}, {@code correct-by}, {@code teeth}, {@code like}, {@code set}, {@code stage} or {@code accept};
 *     anything else is not for this package
 * @param value the answer
 */
public record Said(String about, String value) {}
