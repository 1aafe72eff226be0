package vestibule.conformance.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaPackage;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.logging.Logger;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.NullMarked;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import vestibule.conformance.Corpus;

@DisplayName("The house: its rooms, and which of them know which")
class HouseTest {

    /** Each package, then the packages of ours it may know; a package that is not named here has no room in the house. */
    private static final String ARROWS = """
            samples                  : samples.*
            samples.*                : samples samples.*
            dicom.data               :
            dicom.dict               : dicom.data
            dicom.io                 : dicom.data dicom.dict
            dicom.jpeg               :
            dicom.net                : dicom.net.* dicom.io dicom.data dicom.dict
            dicom.net.*              : dicom.net dicom.net.* dicom.io dicom.data dicom.dict
            dicom.service            : dicom.net dicom.io dicom.data dicom.dict
            validator                : validator.* dicom.data dicom.dict dicom.io dicom.jpeg
            validator.*              : validator validator.* dicom.data dicom.dict dicom.io dicom.jpeg
            bridge.color             : dicom.data dicom.dict dicom.jpeg
            bridge.settings          : bridge.view bridge.photo bridge.patient dicom.data dicom.dict dicom.jpeg
            bridge.intake            : dicom.io dicom.jpeg
            bridge.photo             : bridge.color dicom.data dicom.dict dicom.jpeg
            bridge.patient           : bridge.intake dicom.data dicom.dict
            bridge.view              : dicom.data dicom.dict dicom.jpeg
            bridge.object            : bridge.photo bridge.color bridge.patient bridge.view bridge.settings dicom.data dicom.dict dicom.io dicom.jpeg
            bridge.sheet             : dicom.jpeg
            bridge.outbox            :
            bridge.delivery          : dicom.data dicom.dict dicom.io dicom.jpeg dicom.net dicom.net.tls dicom.service
            bridge.probe             : bridge.delivery dicom.data dicom.dict dicom.io dicom.net dicom.net.tls dicom.service
            bridge.archive           : dicom.data dicom.dict dicom.io dicom.net dicom.net.tls dicom.service
            bridge.app               : bridge.* dicom.* validator validator.report
            conformance.*            : samples dicom.* validator bridge.*
            conformance.bench        : conformance.fault
            """;

    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(new ImportOption.DoNotIncludeTests())
            .importPackages("vestibule");

    private static Map<String, List<String>> arrows() {
        Map<String, List<String>> arrows = new LinkedHashMap<>();
        ARROWS.lines().forEach(line -> {
            String[] sides = line.split(":", -1);
            arrows.put(
                    sides[0].strip(),
                    Arrays.stream(sides[1].strip().split(" ", -1)).toList());
        });
        return arrows;
    }

    private static boolean matches(String pattern, String name) {
        return pattern.endsWith(".*")
                ? name.startsWith(pattern.substring(0, pattern.length() - 1))
                : name.equals(pattern);
    }

    private static String room(JavaClass type) {
        return type.getPackageName().replaceFirst("^vestibule\\.", "");
    }

    private static Set<String> rooms() {
        return HOUSE.stream().map(HouseTest::room).collect(Collectors.toCollection(TreeSet::new));
    }

    @TestFactory
    @DisplayName("every package knows only the packages it may know")
    Stream<DynamicTest> arrowsHold() {
        Map<String, List<String>> arrows = arrows();
        return rooms().stream()
                .map(room -> dynamicTest(room, () -> {
                    List<String> allowed = arrows.entrySet().stream()
                            .filter(entry -> matches(entry.getKey(), room))
                            .flatMap(entry -> entry.getValue().stream())
                            .toList();
                    assertThat(arrows.keySet())
                            .as("packages that have a room")
                            .anyMatch(pattern -> matches(pattern, room));
                    Set<String> broken = new TreeSet<>();
                    HOUSE.stream().filter(type -> room(type).equals(room)).forEach(type -> {
                        for (Dependency dependency : type.getDirectDependenciesFromSelf()) {
                            JavaClass target = dependency.getTargetClass().getBaseComponentType();
                            boolean ours = target.getPackageName().startsWith("vestibule")
                                    && !room(target).equals(room);
                            if (ours && allowed.stream().noneMatch(pattern -> matches(pattern, room(target)))) {
                                broken.add(type.getSimpleName() + " knows " + target.getFullName());
                            }
                        }
                    });
                    assertThat(broken).isEmpty();
                }));
    }

    @Test
    @DisplayName("no package is named after nothing: util, impl, manager, helper, common")
    void names() {
        assertThat(rooms()).noneMatch(room -> room.matches(".*\\b(utils?|impl|manager|helpers?|common|misc)\\b.*"));
    }

    @Test
    @DisplayName("every package says where to start and is marked for null analysis")
    void packageInfo() {
        assertThat(rooms()).allSatisfy(room -> {
            JavaPackage found = HOUSE.getPackage("vestibule." + room);
            assertThat(found.tryGetPackageInfo()).as(room).isPresent();
            assertThat(found.isAnnotatedWith(NullMarked.class)).as(room).isTrue();
        });
    }

    @Test
    @DisplayName("nobody logs through java.util.logging")
    void logging() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .resideInAPackage(Logger.class.getPackageName())
                .check(HOUSE);
    }

    @Test
    @DisplayName("only commands and programs print")
    void printing() {
        DescribedPredicate<JavaClass> programs = DescribedPredicate.describe(
                "commands and programs",
                type -> type.getPackageName().contains(".app")
                        || type.tryGetMethod("main", String[].class).isPresent());
        noClasses()
                .that(DescribedPredicate.not(programs))
                .should()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .check(HOUSE);
    }

    @Test
    @DisplayName("nobody asks the system for the time behind the clock's back")
    void time() {
        noClasses()
                .should()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(java.time.Clock.class, "systemUTC")
                .orShould()
                .callMethod(java.time.Instant.class, "now")
                .orShould()
                .callMethod(java.time.LocalDate.class, "now")
                .orShould()
                .callMethod(java.time.LocalDateTime.class, "now")
                .check(HOUSE);
    }

    @Test
    @DisplayName("nobody sleeps, in programs or in tests")
    void sleep() throws IOException {
        List<String> sleepers = new ArrayList<>();
        for (String module : List.of("samples", "dicom", "validator", "bridge", "conformance")) {
            try (Stream<Path> files =
                    Files.walk(Corpus.repository().resolve(module).resolve("src"))) {
                for (Path file :
                        files.filter(path -> path.toString().endsWith(".java")).toList()) {
                    if (Files.readString(file).contains("Thread" + ".sleep")) {
                        sleepers.add(file.toString());
                    }
                }
            }
        }
        assertThat(sleepers).isEmpty();
    }

    @Test
    @DisplayName("in the validator only the small pictures of a report are decoded by the JDK (decision 37)")
    void onlyThumbnailsDecode() {
        noClasses()
                .that()
                .resideInAnyPackage("vestibule.dicom..", "vestibule.validator..")
                .and()
                .doNotHaveFullyQualifiedName("vestibule.validator.Thumbnail")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("javax.imageio..", "java.awt..")
                .check(HOUSE);
    }

    @Test
    @DisplayName(
            "the toolkit and the validator's library stand on slf4j and JSpecify alone; the command line stays in app")
    void libraries() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        "vestibule.dicom..",
                        "vestibule.validator",
                        "vestibule.validator.rules..",
                        "vestibule.validator.iod..",
                        "vestibule.validator.report..")
                .should()
                .dependOnClassesThat()
                .resideOutsideOfPackages(
                        "java..",
                        "javax.imageio..",
                        "javax.net.ssl..",
                        "javax.crypto..",
                        "javax.security.auth.x500..",
                        "jdk.net..",
                        "com.sun.nio.file..",
                        "vestibule..",
                        "org.jspecify..",
                        "org.slf4j..")
                .check(HOUSE);
        noClasses()
                .that()
                .resideOutsideOfPackages("..app..", "vestibule.conformance..", "vestibule.samples..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("org.apache.commons.cli..")
                .check(HOUSE);
    }
}
