package vestibule.dicom.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static vestibule.dicom.net.ScriptedUse.AMPLE;
import static vestibule.dicom.net.ScriptedUse.ECHO;
import static vestibule.dicom.net.ScriptedUse.SHORT;
import static vestibule.dicom.net.ScriptedUse.echo;
import static vestibule.dicom.net.ScriptedUse.echoAnswer;
import static vestibule.dicom.net.ScriptedUse.failure;
import static vestibule.dicom.net.ScriptedUse.openingFails;
import static vestibule.dicom.net.Wire.data;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AssociationException.Aborted;
import vestibule.dicom.net.AssociationException.ConnectionLost;
import vestibule.dicom.net.AssociationException.DeadlinePassed;
import vestibule.dicom.net.AssociationException.NotReachable;
import vestibule.dicom.net.AssociationException.Rejected;
import vestibule.dicom.net.pdu.Pdu;
import vestibule.dicom.net.pdu.UserInformation;

@DisplayName("A requestor, whatever the peer does (PS3.8 9.2)")
@Timeout(60)
class AssociationOutcomesTest {

    // PS3.8 Table 9-21
    @ParameterizedTest(name = "rejected with result {0}, source {1}, reason {2}: {3}")
    @CsvSource({
        "1, 1, 1, NO_REASON_GIVEN",
        "1, 1, 2, APPLICATION_CONTEXT_NOT_SUPPORTED",
        "1, 1, 3, CALLING_AE_TITLE_NOT_RECOGNIZED",
        "1, 1, 7, CALLED_AE_TITLE_NOT_RECOGNIZED",
        "2, 1, 1, NO_REASON_GIVEN",
        "1, 2, 1, NO_REASON_GIVEN_BY_PROVIDER",
        "1, 2, 2, PROTOCOL_VERSION_NOT_SUPPORTED",
        "2, 3, 1, TEMPORARY_CONGESTION",
        "2, 3, 2, LOCAL_LIMIT_EXCEEDED",
        "1, 1, 4, RESERVED",
        "9, 8, 7, RESERVED"
    })
    void a_rejection_is_told_in_words(int result, int source, int reason, Rejection.Reason expected)
            throws IOException {
        Rejected rejected = openingFails(Rejected.class, AMPLE, wire -> {
            wire.read();
            wire.write(new Pdu.AssociateRj(result, source, reason));
            wire.untilClosed();
        });
        assertThat(rejected.rejection().reason()).isEqualTo(expected);
        assertThat(rejected.rejection().isTransient()).isEqualTo(result == 2);
        assertThat(rejected).hasMessageContaining(expected.words()).hasMessageContaining(expected.advice());
    }

    // PS3.8 Table 9-26; with source 0 the reason does not count
    @ParameterizedTest(name = "aborted with source {0}, reason {1}: {2}")
    @CsvSource({
        "0, 0, BY_USER",
        "0, 6, BY_USER",
        "2, 0, NOT_SPECIFIED",
        "2, 1, UNRECOGNIZED_PDU",
        "2, 2, UNEXPECTED_PDU",
        "2, 4, UNRECOGNIZED_PARAMETER",
        "2, 5, UNEXPECTED_PARAMETER",
        "2, 6, UNSUITABLE_PARAMETER_VALUE",
        "2, 3, RESERVED",
        "1, 0, RESERVED"
    })
    void an_abort_is_told_in_words(int source, int reason, AbortReason expected) throws IOException {
        Aborted instead = openingFails(Aborted.class, AMPLE, wire -> {
            wire.read();
            wire.write(new Pdu.Abort(source, reason));
        });
        Aborted later = failure(
                Aborted.class,
                AMPLE,
                wire -> {
                    wire.accept();
                    wire.readCommand();
                    wire.write(new Pdu.Abort(source, reason));
                },
                ScriptedUse::echo);
        assertThat(instead.reason()).isEqualTo(expected);
        assertThat(later.reason()).isEqualTo(expected);
        assertThat(later).hasMessageContaining(expected.words());
    }

    private record Stall(String name, ScriptedPeer.Script script) {}

    @TestFactory
    @DisplayName("silence ends at the deadline")
    Stream<DynamicTest> silence() {
        return Stream.of(
                        new Stall("before the answer to the request", wire -> {
                            wire.read();
                            wire.untilClosed();
                        }),
                        new Stall("after one byte of the answer", wire -> {
                            wire.read();
                            wire.hex("02");
                            wire.untilClosed();
                        }),
                        new Stall("in the middle of the answer", wire -> {
                            Pdu.AssociateRq request = (Pdu.AssociateRq) wire.read();
                            wire.writePart(Wire.acceptance(request, 0), 90);
                            wire.untilClosed();
                        }),
                        new Stall("before the answer to a message", wire -> {
                            wire.accept();
                            wire.untilClosed();
                        }),
                        new Stall("in the middle of the answer to a message", wire -> {
                            wire.accept();
                            wire.readCommand();
                            wire.writePart(data(1, true, true, echoAnswer()), 40);
                            wire.untilClosed();
                        }),
                        new Stall("between two fragments of an answer", wire -> {
                            wire.accept();
                            wire.readCommand();
                            wire.write(data(1, true, false, echoAnswer()));
                            wire.untilClosed();
                        }))
                .map(stall -> DynamicTest.dynamicTest(stall.name, () -> {
                    long start = System.nanoTime();
                    DeadlinePassed passed = failure(DeadlinePassed.class, SHORT, stall.script, ScriptedUse::echo);
                    assertThat(passed).hasMessageContaining("300 ms");
                    assertThat(Duration.ofNanos(System.nanoTime() - start))
                            .isBetween(Duration.ofMillis(300), Duration.ofSeconds(3));
                }));
    }

    @Test
    @DisplayName("an answer that trickles in byte by byte ends at the deadline all the same")
    void trickle() throws IOException {
        DeadlinePassed passed = openingFails(DeadlinePassed.class, SHORT, wire -> {
            Pdu.AssociateRq request = (Pdu.AssociateRq) wire.read();
            byte[] all = vestibule.dicom.net.pdu.PduCodec.write(Wire.acceptance(request, 0))
                    .array();
            CountDownLatch never = new CountDownLatch(1);
            try {
                for (byte one : all) {
                    wire.bytes(new byte[] {one});
                    assertThat(never.await(20, java.util.concurrent.TimeUnit.MILLISECONDS))
                            .isFalse();
                }
            } catch (java.net.SocketException e) {
                assertThat(e).as("the other side had enough").isNotNull();
            }
        });
        assertThat(passed).hasMessageContaining("the answer to our association request");
    }

    @Test
    @DisplayName("a peer that stops reading ends at the deadline: writes have one too")
    void blockedWrite() throws IOException {
        CountDownLatch done = new CountDownLatch(1);
        DeadlinePassed passed = failure(
                DeadlinePassed.class,
                SHORT,
                wire -> {
                    wire.accept();
                    done.await();
                },
                association -> {
                    try {
                        store(association, 64 << 20);
                    } finally {
                        done.countDown();
                    }
                });
        assertThat(passed).hasMessageContaining("room for the next byte of our message");
    }

    private static void store(Association association, int bytes) throws IOException {
        Command request = Command.store(1, Uids.VERIFICATION, Uids.VERIFICATION);
        Bulk megabyte = Bulk.of(new byte[1 << 20]);
        Bulk all = Bulk.concat(java.util.Collections.nCopies(bytes >> 20, megabyte));
        association.send(association.contexts().get(0), request, all);
        assertThat(association.answerTo(request).command().status()).isZero();
    }

    @Test
    @DisplayName("an abort in the middle of our message is told with its reason, although our write fails")
    void abortWhileWriting() throws IOException {
        Aborted aborted = failure(
                Aborted.class,
                AMPLE,
                wire -> {
                    wire.accept();
                    wire.readCommand();
                    wire.write(new Pdu.Abort(2, 6));
                },
                association -> store(association, 64 << 20));
        assertThat(aborted.reason()).isEqualTo(AbortReason.UNSUITABLE_PARAMETER_VALUE);
    }

    @TestFactory
    @DisplayName("a connection that closes is told as lost")
    Stream<DynamicTest> closed() {
        return Stream.of(
                        new Stall("before the answer to the request", Wire::read),
                        new Stall("in the middle of the answer", wire -> {
                            Pdu.AssociateRq request = (Pdu.AssociateRq) wire.read();
                            wire.writePart(Wire.acceptance(request, 0), 90);
                        }),
                        new Stall("before the answer to a message", wire -> {
                            wire.accept();
                            wire.readCommand();
                        }),
                        new Stall("in the middle of the answer to a message", wire -> {
                            wire.accept();
                            wire.readCommand();
                            wire.writePart(data(1, true, true, echoAnswer()), 40);
                        }),
                        new Stall("after a release that nobody asked for", wire -> {
                            wire.accept();
                            wire.readCommand();
                            wire.write(new Pdu.ReleaseRq());
                            assertThat(wire.read()).isInstanceOf(Pdu.ReleaseRp.class);
                        }))
                .map(stall -> DynamicTest.dynamicTest(
                        stall.name,
                        () -> assertThat(failure(ConnectionLost.class, AMPLE, stall.script, ScriptedUse::echo))
                                .isNotNull()));
    }

    @Test
    @DisplayName("an answer in many small fragments, some empty, is put together")
    void fragments() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            wire.readCommand();
            byte[] answer = echoAnswer();
            for (int i = 0; i < answer.length; i += 2) {
                wire.write(data(1, true, false, new byte[] {answer[i], answer[i + 1]}));
            }
            wire.write(data(1, true, true, new byte[0]));
            assertThat(wire.read()).isInstanceOf(Pdu.ReleaseRq.class);
            wire.write(new Pdu.ReleaseRp());
            wire.untilClosed();
        })) {
            try (Association association = Association.open(ECHO, peer.entity(), AMPLE)) {
                echo(association);
                association.release();
                assertThat(association.isOpen()).isFalse();
            }
        }
    }

    @Test
    @DisplayName("when both sides release at once, each answers the other (PS3.8 7.2.2.6)")
    void releaseCollision() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            assertThat(wire.read()).isInstanceOf(Pdu.ReleaseRq.class);
            wire.write(new Pdu.ReleaseRq());
            assertThat(wire.read()).isInstanceOf(Pdu.ReleaseRp.class);
            wire.write(new Pdu.ReleaseRp());
            wire.untilClosed();
        })) {
            Association association = Association.open(ECHO, peer.entity(), AMPLE);
            association.release();
            assertThat(association.isOpen()).isFalse();
        }
    }

    @Test
    @DisplayName("a release that is not answered ends at the deadline")
    void releaseUnanswered() throws IOException {
        DeadlinePassed passed = failure(
                DeadlinePassed.class,
                SHORT,
                wire -> {
                    wire.accept();
                    wire.untilClosed();
                },
                Association::release);
        assertThat(passed).hasMessageContaining("the answer to our release");
    }

    @Test
    @DisplayName("data that still come while a release is answered are read over")
    void dataDuringRelease() throws IOException {
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            wire.read();
            wire.write(data(1, true, true, echoAnswer()));
            wire.write(new Pdu.ReleaseRp());
            wire.untilClosed();
        })) {
            Association association = Association.open(ECHO, peer.entity(), AMPLE);
            association.release();
            assertThat(association.isOpen()).isFalse();
        }
    }

    @Test
    @DisplayName("an abort of ours waits for the peer to close, but not for ever")
    void ownAbort() throws IOException {
        CountDownLatch done = new CountDownLatch(1);
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            wire.accept();
            assertThat(wire.read()).isEqualTo(new Pdu.Abort(0, 0));
            done.await();
        })) {
            Association association = Association.open(ECHO, peer.entity(), SHORT);
            long start = System.nanoTime();
            association.abort();
            done.countDown();
            assertThat(Duration.ofNanos(System.nanoTime() - start))
                    .isBetween(Duration.ofMillis(250), Duration.ofSeconds(3));
            assertThat(association.isOpen()).isFalse();
        }
    }

    @Test
    @DisplayName("contexts that the answer leaves out, or accepts in a syntax that was not offered, are not accepted")
    void oddAcceptance() throws IOException {
        AssociationRequest request = AssociationRequest.of(
                new AeTitle("US"),
                List.of(
                        ProposedContext.of(Uids.VERIFICATION, Uids.IMPLICIT_VR_LITTLE_ENDIAN),
                        ProposedContext.of(Uids.VERIFICATION, Uids.EXPLICIT_VR_LITTLE_ENDIAN),
                        ProposedContext.of(Uids.VERIFICATION, Uids.JPEG_BASELINE8_BIT),
                        ProposedContext.of(Uids.VERIFICATION, Uids.RLE_LOSSLESS)));
        try (ScriptedPeer peer = ScriptedPeer.playing(wire -> {
            Pdu.AssociateRq wanted = (Pdu.AssociateRq) wire.read();
            Pdu.AssociateAc all = Wire.acceptance(wanted, 0);
            wire.write(new Pdu.AssociateAc(
                    1,
                    all.calledAe(),
                    all.callingAe(),
                    all.reserved(),
                    all.applicationContext(),
                    List.of(
                            new Pdu.ResultItem(1, 0, Uids.JPEG_BASELINE8_BIT.value()),
                            new Pdu.ResultItem(3, 4, ""),
                            new Pdu.ResultItem(5, 0, Uids.JPEG_BASELINE8_BIT.value()),
                            new Pdu.ResultItem(99, 0, Uids.JPEG_BASELINE8_BIT.value())),
                    UserInformation.of(0, "1.2.3", "")));
            wire.read();
            wire.write(new Pdu.ReleaseRp());
        })) {
            try (Association association = Association.open(request, peer.entity(), AMPLE)) {
                assertThat(association.contexts())
                        .extracting(NegotiatedContext::result)
                        .containsExactly(
                                ContextResult.UNANSWERED,
                                ContextResult.TRANSFER_SYNTAXES_NOT_SUPPORTED,
                                ContextResult.ACCEPTED,
                                ContextResult.UNANSWERED);
                assertThat(association.accepted(Uids.VERIFICATION, Uids.JPEG_BASELINE8_BIT))
                        .map(NegotiatedContext::id)
                        .contains(5);
            }
        }
    }

    @Test
    @DisplayName("a port nobody listens on is told as refused")
    void refused() throws IOException {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        NotReachable failure = catchThrowableOfType(
                NotReachable.class,
                () -> Association.open(ECHO, new ApplicationEntity(new AeTitle("X"), "127.0.0.1", port), AMPLE));
        assertThat(failure.obstacle()).isEqualTo(NotReachable.Obstacle.REFUSED);
        assertThat(failure).hasMessageContaining("check that the archive runs");
    }

    @Test
    @DisplayName("a name that does not exist is told as not found, or as unanswered where no name server is")
    void unknownHost() {
        // The top-level domain “invalid” never exists (RFC 2606)
        ApplicationEntity nowhere = new ApplicationEntity(new AeTitle("X"), "archive.invalid", 104);
        NotReachable failure = catchThrowableOfType(
                NotReachable.class, () -> Association.open(ECHO, nowhere, Deadlines.all(Duration.ofSeconds(2))));
        assertThat(failure.obstacle()).isIn(NotReachable.Obstacle.NAME_NOT_FOUND, NotReachable.Obstacle.TIMED_OUT);
    }

    @Test
    @DisplayName("after the association has ended, sending says so instead of hanging")
    void afterTheEnd() throws IOException {
        ConnectionLost lost = failure(
                ConnectionLost.class,
                AMPLE,
                wire -> {
                    wire.accept();
                    wire.untilClosed();
                },
                association -> {
                    association.abort();
                    echo(association);
                });
        assertThat(lost).hasMessageContaining("open a new one");
    }
}
