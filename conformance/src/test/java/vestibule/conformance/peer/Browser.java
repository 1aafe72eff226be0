package vestibule.conformance.peer;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Chromium without a window, driven as W3C WebDriver says, with what it would tell a screen reader. */
public final class Browser implements AutoCloseable {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String ELEMENT = "element-6066-11e4-a52e-4f735466cecf";

    /** WebDriver 17.4.2, "Tab". */
    private static final String TAB = "\uE004";

    private final Process driver;
    private final HttpClient http = HttpClient.newHttpClient();
    private final URI root;
    private String session = "";

    private Browser(Process driver, int port) {
        this.driver = driver;
        this.root = URI.create("http://127.0.0.1:%d/".formatted(port));
    }

    /** Starts one with a profile in that folder; the test is skipped where browser or driver is absent. */
    public static Browser start(Path folder) throws IOException, InterruptedException {
        Tool chromium = Tool.named("chromium");
        int port = Deadline.freePort();
        Process process = Tool.named("chromedriver")
                .start(
                        List.of("--port=" + port),
                        Files.createTempFile(folder, "driver", ".out"),
                        Files.createTempFile(folder, "driver", ".err"));
        Browser browser = new Browser(process, port);
        try {
            Deadline.await(Duration.ofSeconds(60), "chromedriver answers", browser::isReady);
            browser.open(chromium, folder);
            return browser;
        } catch (IOException | AssertionError e) {
            browser.close();
            throw e;
        }
    }

    private boolean isReady() {
        try {
            return ask("GET", "status", null).path("ready").asBoolean();
        } catch (IOException notYet) {
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private void open(Tool chromium, Path folder) throws IOException, InterruptedException {
        List<String> words = Stream.of(
                        "--headless",
                        "--no-sandbox",
                        "--disable-gpu",
                        "--disable-quic",
                        "--no-first-run",
                        "--disable-background-networking",
                        "--disable-component-update",
                        "--disable-sync",
                        "--window-size=1100,1300",
                        "--user-data-dir=" + Files.createTempDirectory(folder, "profile"))
                .toList();
        JsonNode made = ask(
                "POST",
                "session",
                Map.of(
                        "capabilities",
                        Map.of(
                                "alwaysMatch",
                                Map.of(
                                        "goog:chromeOptions",
                                        Map.of("binary", chromium.program().toString(), "args", words)))));
        session = made.get("sessionId").asString();
    }

    private JsonNode ask(String method, String path, @Nullable Object body) throws IOException, InterruptedException {
        HttpRequest request = HttpRequest.newBuilder(root.resolve(path))
                .timeout(Duration.ofMinutes(1))
                .method(
                        method,
                        body == null
                                ? HttpRequest.BodyPublishers.noBody()
                                : HttpRequest.BodyPublishers.ofString(JSON.writeValueAsString(body)))
                .build();
        HttpResponse<String> answer = http.send(request, HttpResponse.BodyHandlers.ofString());
        JsonNode value = JSON.readTree(answer.body()).get("value");
        if (answer.statusCode() != 200) {
            throw new IOException("%s %s: %s".formatted(method, path, value));
        }
        return value;
    }

    private JsonNode inSession(String method, String path, @Nullable Object body)
            throws IOException, InterruptedException {
        return ask(method, "session/" + session + "/" + path, body);
    }

    /** Shows a page. */
    public void show(Path page) throws IOException, InterruptedException {
        inSession("POST", "url", Map.of("url", page.toUri().toString()));
    }

    /** What a script returns. */
    public JsonNode script(String text) throws IOException, InterruptedException {
        return inSession("POST", "execute/sync", Map.of("script", text, "args", List.of()));
    }

    /** Presses a key, or types a text, wherever the focus is. */
    public void type(String keys) throws IOException, InterruptedException {
        List<Map<String, String>> actions = new ArrayList<>();
        keys.codePoints().mapToObj(Character::toString).forEach(key -> {
            actions.add(Map.of("type", "keyDown", "value", key));
            actions.add(Map.of("type", "keyUp", "value", key));
        });
        inSession(
                "POST",
                "actions",
                Map.of("actions", List.of(Map.of("type", "key", "id", "keyboard", "actions", actions))));
    }

    /** Presses the tabulator, and says what has the focus then, as a screen reader does: its role and its name. */
    public String tab() throws IOException, InterruptedException {
        type(TAB);
        String active = inSession("GET", "element/active", null).get(ELEMENT).asString();
        return inSession("GET", "element/" + active + "/computedrole", null).asString() + " "
                + inSession("GET", "element/" + active + "/computedlabel", null).asString();
    }

    /** A picture of what is to be seen. */
    public byte[] screenshot() throws IOException, InterruptedException {
        return Base64.getDecoder().decode(inSession("GET", "screenshot", null).asString());
    }

    /** The page on paper, as PDF. */
    public byte[] print() throws IOException, InterruptedException {
        return Base64.getDecoder().decode(inSession("POST", "print", Map.of()).asString());
    }

    @Override
    public void close() {
        try {
            if (!session.isEmpty()) {
                ask("DELETE", "session/" + session, null);
            }
        } catch (IOException goneAlready) {
            session = "";
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            driver.descendants().forEach(ProcessHandle::destroyForcibly);
            OrthancProcess.end(driver);
        }
    }
}
