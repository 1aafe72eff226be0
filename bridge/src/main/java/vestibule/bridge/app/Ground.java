package vestibule.bridge.app;

import java.time.Instant;

/**
 * One ground of a decision: why we believe it.
 *
 * @param about what it speaks for, as {@code patient} or {@code view}
 * @param kind what sort of evidence it is, as {@code patient-card} or {@code file-name}
 * @param at when the evidence was made or read
 * @param origin where it lies: the frame of a card, the name of a list, who said it
 */
record Ground(String about, String kind, Instant at, String origin) {}
