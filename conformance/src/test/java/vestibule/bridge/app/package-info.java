/**
 * The proofs that nothing is lost and nothing doubled. They stand in the package of the program's own assembly, so that a proof owns the
 * clock, the disk, the archive and the order of steps. Start from {@link vestibule.bridge.app.Bench}.
 */
package vestibule.bridge.app;
