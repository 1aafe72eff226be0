#!/usr/bin/env bash
# Measures against a named peer in the same run: bash conformance/bench.sh NAME [ARGUMENTS]
# Names: jpeg (turning, coding again and checking photographs, against libjpeg-turbo's jpegtran),
#        network (sending, receiving and opening 100 objects of 4.4 MB, against DCMTK's storescu and storescp),
#        day (looking for patient cards in 320 photographs of 12 megapixels, against libjpeg-turbo's djpeg),
#        delivery [PHOTOGRAPHS [MIRRORED EACH]] (a card to committed, against cp and sync and against a chain of sha256sum, jpegtran,
#            pydicom, dciodvfy and storescu), delivery flat [MOST [MEGABYTES OF HEAP]] (time for each
#            photograph from 100 to that many small ones),
#        validator [OBJECTS [FILES FOR THE PEER]] (objects a second against dciodvfy started for each file; time to the first finding).
# Build first (mvn -DskipTests package). Ratios mean little while the machine does something else.
set -euo pipefail

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

# Class path of the benchmarks: the modules as built, and what they need of other people's.
class_path() {
  local list="$root/conformance/target/bench-class-path"
  if [ ! -s "$list" ] || [ "$root/conformance/pom.xml" -nt "$list" ]; then
    mvn -o -q -B -f "$root/pom.xml" -pl conformance -am -DskipTests package \
      dependency:build-classpath -DincludeScope=runtime -Dmdep.outputFile="$list.new" >&2
    # Each module writes it in its turn, so that half a build leaves the list of another one
    mv "$list.new" "$list"
  fi
  printf '%s' "$root/conformance/target/classes:$(cat "$list")"
}

case "${1:-}" in
  jpeg)
    shift
    exec java -Xmx512m -cp "$root/conformance/target/classes:$root/bridge/target/classes:$root/dicom/target/classes:$(class_path)" \
      vestibule.conformance.bench.JpegBench "$@"
    ;;
  network)
    shift
    exec java -Xmx256m -cp "$root/conformance/target/classes:$root/dicom/target/classes:$(class_path)" \
      vestibule.conformance.bench.NetworkBench "$@"
    ;;
  day)
    shift
    exec java -Xmx512m -cp "$(class_path)" vestibule.conformance.bench.DayBench "$@"
    ;;
  delivery)
    shift
    exec java -Xmx512m -cp "$(class_path)" vestibule.conformance.bench.DeliveryBench "$@"
    ;;
  validator)
    shift
    exec java -Xmx256m -cp "$root/conformance/target/classes:$root/validator/target/classes:$root/dicom/target/classes:$(class_path)" \
      vestibule.conformance.bench.ValidatorBench "$@"
    ;;
  *)
    sed -n '2,8s/^# //p' "${BASH_SOURCE[0]}" >&2
    exit 2
    ;;
esac
