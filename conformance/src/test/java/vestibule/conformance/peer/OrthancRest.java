package vestibule.conformance.peer;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The part of Orthanc's web interface that tells what it has stored. */
final class OrthancRest {

    private static final Duration PATIENCE = Duration.ofSeconds(20);

    private final HttpClient client =
            HttpClient.newBuilder().connectTimeout(PATIENCE).build();
    private final JsonMapper json = new JsonMapper();
    private final String root;

    OrthancRest(String host, int port) {
        root = "http://%s:%d/".formatted(host, port);
    }

    boolean answers() throws IOException {
        return get("system").has("Version");
    }

    List<String> instances() throws IOException {
        List<String> uids = new ArrayList<>();
        for (JsonNode instance : get("instances?expand")) {
            uids.add(instance.path("MainDicomTags").path("SOPInstanceUID").asString());
        }
        return uids;
    }

    List<String> patientNames() throws IOException {
        List<String> names = new ArrayList<>();
        for (JsonNode patient : get("patients?expand")) {
            names.add(patient.path("MainDicomTags").path("PatientName").asString());
        }
        return names;
    }

    Path fetch(String sopInstanceUid, Path folder) throws IOException {
        for (JsonNode instance : get("instances?expand")) {
            if (sopInstanceUid.equals(
                    instance.path("MainDicomTags").path("SOPInstanceUID").asString())) {
                Path target = folder.resolve(sopInstanceUid + ".dcm");
                send("instances/" + instance.path("ID").asString() + "/file", HttpResponse.BodyHandlers.ofFile(target));
                return target;
            }
        }
        throw new AssertionError("the archive does not have " + sopInstanceUid);
    }

    private JsonNode get(String path) throws IOException {
        return json.readTree(send(path, HttpResponse.BodyHandlers.ofString()));
    }

    private <T> T send(String path, HttpResponse.BodyHandler<T> body) throws IOException {
        try {
            HttpRequest request = HttpRequest.newBuilder(URI.create(root + path))
                    .timeout(PATIENCE)
                    .build();
            HttpResponse<T> response = client.send(request, body);
            if (response.statusCode() != 200) {
                throw new IOException("status " + response.statusCode() + " for " + path);
            }
            return response.body();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted while asking for " + path, e);
        }
    }
}
