package vestibule.dicom.jpeg;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;

/** The command-line tools of libjpeg-turbo, as an independent opinion; tests that ask for them skip without them. */
final class PeerTools {
    private static final Map<Turn, List<String>> PEER_WORDS = Map.of(
            Turn.NONE, List.of(),
            Turn.FLIP_HORIZONTAL, List.of("-flip", "horizontal"),
            Turn.FLIP_VERTICAL, List.of("-flip", "vertical"),
            Turn.ROTATE_90, List.of("-rotate", "90"),
            Turn.ROTATE_180, List.of("-rotate", "180"),
            Turn.ROTATE_270, List.of("-rotate", "270"),
            Turn.TRANSPOSE, List.of("-transpose"),
            Turn.TRANSVERSE, List.of("-transverse"));

    private PeerTools() {}

    /** How the peer is told to turn a picture. */
    static List<String> words(Turn turn) {
        return PEER_WORDS.get(turn);
    }

    /** What the peer makes of a picture, or null when it refuses. */
    static byte[] turned(Path source, Turn turn, String edges) throws IOException, InterruptedException {
        List<String> words = new ArrayList<>(words(turn));
        words.add(edges);
        return run("jpegtran", words, source);
    }

    /** Standard output of a tool, or null when it exits with an error. */
    static byte[] run(String tool, List<String> arguments, Path input) throws IOException, InterruptedException {
        assumeTrue(present(tool), tool + " is not installed");
        List<String> command = new ArrayList<>();
        command.add(tool);
        command.addAll(arguments);
        command.add(input.toString());
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        ByteArrayOutputStream output = new ByteArrayOutputStream();
        try (InputStream stream = process.getInputStream()) {
            stream.transferTo(output);
        }
        return process.waitFor() == 0 ? output.toByteArray() : null;
    }

    /** MD5 of the samples that the peer decodes, with their width and height. */
    static String samples(Path picture) throws IOException, InterruptedException {
        assumeTrue(present("djpeg"), "djpeg is not installed");
        Process process = new ProcessBuilder("djpeg", "-pnm", picture.toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        MessageDigest digest;
        try {
            digest = MessageDigest.getInstance("MD5");
        } catch (NoSuchAlgorithmException impossible) {
            throw new AssertionError(impossible);
        }
        byte[] part = new byte[1 << 16];
        try (InputStream stream = process.getInputStream()) {
            for (int got = stream.read(part); got >= 0; got = stream.read(part)) {
                digest.update(part, 0, got);
            }
        }
        int exit = process.waitFor();
        return exit + ":" + HexFormat.of().formatHex(digest.digest());
    }

    private static boolean present(String tool) {
        for (String folder : System.getenv("PATH").split(":", -1)) {
            if (Files.isExecutable(Path.of(folder, tool))) {
                return true;
            }
        }
        return false;
    }
}
