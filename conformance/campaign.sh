#!/usr/bin/env bash
# Longer proofs than a test run has time for: bash conformance/campaign.sh NAME [COUNT]
# Names: fuzz [SECONDS]  every fuzz target for that long (default 60), finds are saved and replayed by every test run from then on;
#        large           an object with 2 GB of pixel data is written, sent and received by programs of 64 MB of heap;
#        practice [COUNT] a model of a practice assigns that many photographs on ordinary and on bad days (default 1000000);
#        cards           patient cards turned by every degree in frames of 12 megapixels.
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
      dependency:build-classpath -DincludeScope=test -Dmdep.outputFile="$list" >&2
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

fuzz() {
  local seconds=${1:-60} target class method work inputs found=0
  local class_path; class_path="$house:$(jars)"
  work="$root/conformance/target/fuzz"
  for target in $(targets); do
    class=${target%#*} method=${target#*#}
    # Inputs that crash go straight to where ordinary runs replay them.
    inputs="$root/conformance/src/test/resources/vestibule/conformance/fuzz/${class}Inputs/$method"
    mkdir -p "$inputs" "$work/$target"
    java -Xmx512m -cp "$class_path" com.code_intelligence.jazzer.Jazzer \
      --target_class="vestibule.conformance.fuzz.$class" --target_method="$method" \
      --instrumentation_includes='vestibule.dicom.**' --reproducer_path="$work" \
      -max_total_time="$seconds" -report_slow_units=3600 -rss_limit_mb=2048 -max_len=4096 -artifact_prefix="$inputs/" \
      "$work/$target" "$inputs" >"$work/$target.log" 2>&1 || { found=1; echo "$target: a find, see $work/$target.log"; }
    printf '%-28s %s\n' "$target" "$(grep -aE '^Done [0-9]+ runs' "$work/$target.log" | tail -n 1)"
  done
  return "$found"
}

large() {
  local class_path; class_path="$house:$(jars)"
  java -Xmx64m -cp "$class_path" vestibule.conformance.bench.LargeObject "$@"
}

practice() {
  mvn -o -q -B -f "$root/pom.xml" -pl bridge -am -Dtest=PracticeModelTest -Dsurefire.failIfNoSpecifiedTests=false \
    -Dvestibule.assignments="${1:-1000000}" test
}

cards() {
  mvn -o -q -B -f "$root/pom.xml" -pl bridge -am -Dtest=CardReaderTest -Dsurefire.failIfNoSpecifiedTests=false \
    -Dvestibule.degrees=1 test
}

name=${1:-}
[ $# -eq 0 ] || shift
case "$name" in
  fuzz | large | practice | cards) "$name" "$@" ;;
  *)
    sed -n '2,7s/^# //p' "${BASH_SOURCE[0]}" >&2
    exit 2
    ;;
esac
