#!/usr/bin/env bash
# Longer proofs than a test run has time for: bash conformance/campaign.sh NAME [COUNT]
# Names: fuzz [SECONDS]  every fuzz target for that long (default 60), finds are saved and replayed by every test run from then on;
#        fuzz-jpeg [RUNS [TARGET]] the targets for JPEG streams, walk, decode and picture, that many executions each (default 10000000);
#        matrix          every sampling, remainder, coding and turn of a JPEG against jpegtran;
#        canaries [N]    that many objects (default 1000) made of photographs with a word in every place for metadata;
#        large           an object with 2 GB of pixel data is written, sent and received by programs of 64 MB of heap;
#        labelled        every labelled defect through dciodvfy, and whether we find what it finds;
#        mutation [COUNT] that many damaged objects (default 1000000) through the validator in 256 MB of heap;
#        batch [COUNT]   that many small objects (default 100000) through the validator's command in 256 MB of heap;
#        practice [COUNT] a model of a practice assigns that many photographs to patients and to views (default 1000000);
#        cards           patient cards turned by every degree in frames of 12 megapixels;
#        cuts failures edges offsets eaten stalls outage statuses commitments pulled writers many full kills stored nodes [COUNT]
#                        what no fault may do to a photograph, with the full count or that one; delivery runs them all.
# Build first (mvn -DskipTests package).
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
house="$root/conformance/target/test-classes:$root/conformance/target/classes"
for module in bridge validator dicom samples; do house="$house:$root/$module/target/classes"; done

# Other people's jars that tests need, found once for each state of the POMs.
jars() {
  local list="$root/conformance/target/campaign-class-path"
  if [ ! -s "$list" ] || [ "$root/conformance/pom.xml" -nt "$list" ] || [ "$root/pom.xml" -nt "$list" ]; then
    mvn -o -q -B -f "$root/pom.xml" -pl conformance -am -DskipTests package \
      dependency:build-classpath -DincludeScope=test -Dmdep.outputFile="$list.new" >&2
    # Each module writes it in its turn, so that half a build leaves the list of another one
    mv "$list.new" "$list"
  fi
  cat "$list"
}

# Class#method of every fuzz target.
targets() {
  local file method
  for file in "$root"/conformance/src/test/java/vestibule/conformance/fuzz/*FuzzTest.java; do
    for method in $(sed -n '/@FuzzTest/,/void /s/^ *void \([a-zA-Z]*\)(.*/\1/p' "$file"); do
      echo "$(basename "$file" .java)#$method"
    done
  done
}

# Runs one target under a limit such as -max_total_time=60 or -runs=1000000; tells a find by its exit code.
fuzz_target() {
  local target=$1 limit=$2 class=${1%#*} method=${1#*#} inputs status=0
  local work="$root/conformance/target/fuzz"
  # The decoder's tables have many thousand entries, and to trace how each is filled takes most of an execution and shows nothing.
  # Inputs that crash go straight to where ordinary runs replay them.
  inputs="$root/conformance/src/test/resources/vestibule/conformance/fuzz/${class}Inputs/$method"
  mkdir -p "$inputs" "$work/$target"
  java -Xmx512m -cp "$house:$(jars)" com.code_intelligence.jazzer.Jazzer \
    --target_class="vestibule.conformance.fuzz.$class" --target_method="$method" \
    --instrumentation_includes='vestibule.dicom.**' --reproducer_path="$work" \
    --instrumentation_excludes='vestibule.dicom.jpeg.HuffmanDecoder' \
    "$limit" ${3:+"$3"} -report_slow_units=3600 -rss_limit_mb=2048 -max_len=4096 -artifact_prefix="$inputs/" \
    "$work/$target" "$inputs" >"$work/$target.log" 2>&1 || { status=1; echo "$target: a find, see $work/$target.log"; }
  printf '%-28s %s\n' "$target" "$(grep -aE '^Done [0-9]+ runs' "$work/$target.log" | tail -n 1)"
  return "$status"
}

fuzz() {
  local target found=0
  for target in $(targets); do
    fuzz_target "$target" "-max_total_time=${1:-60}" || found=1
  done
  return "$found"
}

fuzz-jpeg() {
  local target found=0
  for target in $(targets | grep "^JpegFuzzTest#${2:-}"); do
    # Without a time of its own a target would end after five minutes
    fuzz_target "$target" "-runs=${1:-10000000}" -max_total_time=86400 || found=1
  done
  return "$found"
}

one_test() {
  mvn -o -q -B -f "$root/pom.xml" -pl "$1" -am -Dtest="$2" -Dsurefire.failIfNoSpecifiedTests=false "$3" test
}

matrix() {
  one_test dicom TurnMatrixTest -Dvestibule.matrix=whole
}

canaries() {
  one_test conformance CanaryTest "-Dvestibule.canaries=${1:-1000}"
}

large() {
  local class_path; class_path="$house:$(jars)"
  java -Xmx64m -cp "$class_path" vestibule.conformance.bench.LargeObject "$@"
}

labelled() {
  one_test validator LabelledAgreementTest -Dlabelled.objects=1000000
}

mutation() {
  one_test validator DamagedFilesTest "-Ddamaged.files=${1:-1000000}"
}

batch() {
  local class_path; class_path="$house:$(jars)"
  java -cp "$class_path" vestibule.conformance.bench.LargeBatch "$@"
}

practice() {
  local count=${1:-1000000}
  # Sittings are of eight views, some of them skipped and some taken twice
  mvn -o -q -B -f "$root/pom.xml" -pl bridge -am -Dtest='PracticeModelTest,SittingViewsTest' -Dsurefire.failIfNoSpecifiedTests=false \
    -Dvestibule.assignments="$count" -Dvestibule.sittings=$((count / 8)) test
}

cards() {
  mvn -o -q -B -f "$root/pom.xml" -pl bridge -am -Dtest=CardReaderTest -Dsurefire.failIfNoSpecifiedTests=false \
    -Dvestibule.degrees=1 test
}

# The test that holds a proof of delivery.
proof_of() {
  case "$1" in
    cuts | failures) echo PowerCutsTest ;;
    edges | offsets | eaten | stalls | outage) echo LinkFaultsTest ;;
    statuses) echo StatusesTest ;;
    commitments) echo CommitmentCasesTest ;;
    pulled | writers | many | full) echo SourceFaultsTest ;;
    kills | stored) echo KillsTest ;;
    nodes) echo TwoNodesTest ;;
  esac
}

# Runs one proof with its full count, or with COUNT, and prints its figures.
delivery_proof() {
  local name=$1 count=${2:-} words
  words="-Dvestibule.campaign=$name"
  [ -z "$count" ] || words="$words -Dvestibule.campaign.count=$count"
  rm -f "$root/conformance/target/campaign.txt"
  mvn -o -q -B -f "$root/pom.xml" -pl conformance -am -Dtest="$(proof_of "$name")" \
    -Dsurefire.failIfNoSpecifiedTests=false -Dsurefire.argLine="$words" test >&2
  grep "^$name " "$root/conformance/target/campaign.txt"
}

delivery() {
  local name
  for name in cuts failures edges offsets eaten stalls outage statuses commitments pulled writers many full kills stored nodes; do
    delivery_proof "$name"
  done
}

name=${1:-}
[ $# -eq 0 ] || shift
case "$name" in
  cuts | failures | edges | offsets | eaten | stalls | outage | statuses | commitments | pulled | writers | many | full | kills | stored | nodes)
    delivery_proof "$name" "$@"
    ;;
  fuzz | fuzz-jpeg | matrix | canaries | large | labelled | mutation | batch | practice | cards | delivery) "$name" "$@" ;;
  *)
    sed -n '2,14s/^# //p' "${BASH_SOURCE[0]}" >&2
    exit 2
    ;;
esac
