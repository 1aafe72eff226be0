/**
 * Measurements of speed and memory, each against a named peer in the same run. Programs with a {@code main}, started by
 * {@code conformance/bench.sh}; not tests, for times depend on what else the machine does. Start from {@link
 * vestibule.conformance.bench.NetworkBench}.
 */
@NullMarked
package vestibule.conformance.bench;

import org.jspecify.annotations.NullMarked;
