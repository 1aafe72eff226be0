/**
 * Faults on purpose, for tests and for administrators who rehearse a bad day: a link that breaks
 * ({@link vestibule.conformance.fault.FaultProxy}), an archive that answers as a script says
 * ({@link vestibule.conformance.fault.ScriptedArchive}), a disk that loses or refuses what was written
 * ({@link vestibule.conformance.fault.FaultDisk}), a program that is killed ({@link vestibule.conformance.fault.CrashHarness}); and the one
 * judge of what came of it ({@link vestibule.conformance.fault.Oracle}). Start from {@link vestibule.conformance.fault.Rehearsal}.
 */
@NullMarked
package vestibule.conformance.fault;

import org.jspecify.annotations.NullMarked;
