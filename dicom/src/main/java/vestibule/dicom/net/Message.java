package vestibule.dicom.net;

/**
 * A message that has begun to arrive: its command set is here; a data set, if one follows, is still to be taken from the association.
 *
 * @param context the presentation context it came on
 * @param command the command set
 */
public record Message(NegotiatedContext context, Command command) {}
