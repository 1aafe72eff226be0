#!/usr/bin/env bash
# The whole job on invented patients: a camera card, checked objects, the embedded archive, the clinician's table.
# usage: bash samples/demo.sh [FOLDER]     (FOLDER: where everything is left to look at)
set -euo pipefail

here=$(cd "$(dirname "$0")/.." && pwd)
work=${1:-$here/samples/target/demonstration}
bridge=$here/bridge/target/vestibule.jar
validator=$here/validator/target/vestibule-validator.jar
archive_process=

stop() {
  if [ -n "$archive_process" ]; then
    kill "$archive_process" 2>/dev/null || true
    wait "$archive_process" 2>/dev/null || true
    archive_process=
  fi
}
trap stop EXIT

say() { printf '\n== %s\n' "$1"; }

need() {
  command -v "$1" >/dev/null || { echo "demo.sh: $1 is not installed; $2" >&2; exit 69; }
}

build() {
  need java "install a JDK, version 17 or later"
  if [ ! -f "$bridge" ] || [ ! -f "$validator" ] ||
      [ -n "$(find "$here"/*/src/main "$here"/*/pom.xml "$here/pom.xml" -newer "$bridge" -print -quit)" ]; then
    say "Building (first time: a few minutes)"
    need mvn "install Maven 3.8 or later"
    (cd "$here" && mvn -q -B -DskipTests package)
  fi
}

vestibule() { java -jar "$bridge" "$@"; }

draw_card() {
  say "A camera card with two patients' photographs, drawn by code"
  java -cp "$here/samples/target/classes" vestibule.samples.Main card --to "$work" --size 1280x960 >/dev/null
  find "$work/card" -name '*.JPG' | wc -l | sed 's/$/ photographs/'
}

start_archive() {
  say "The embedded archive"
  local announced="$work/archive.announced"
  mkfifo "$announced"
  vestibule archive --port 0 --folder "$work/archive" >"$announced" 2>"$work/archive.log" &
  archive_process=$!
  local line
  if ! read -r -t 60 line <"$announced"; then
    echo "demo.sh: the archive did not start; see $work/archive.log" >&2
    exit 69
  fi
  rm "$announced"
  url=${line##* }
  echo "$line"
}

# One object for each photograph; for one by mirror a second with the picture as recorded. What cannot go in is held back with the reason.
wrap_card() {
  say "Wrapping: photograph, view, patient → object"
  mkdir -p "$work/objects"
  : >"$work/held-back.txt"
  local number=0 file id patient issuer name birth sex view capture exif teeth rest
  # Columns are parted by tabs; a second one in a row must not be taken for one, hence the other separator.
  while IFS=$'\x1f' read -r file id patient issuer name birth sex view capture exif teeth rest; do
    number=$((number + 1))
    local words=(--out "$work/objects/$(printf '%02d' "$number")-$id.dcm" --view "$view" --capture "$capture"
      --patient-id "$patient" --issuer "$issuer" --patient-name "$name" --sex "$sex"
      --series-number 1 --instance-number "$number" --config "$work/vestibule.toml")
    [ -n "$birth" ] && words+=(--birth-date "$birth")
    [ -n "$teeth" ] && words+=(--teeth "${teeth// /,}")
    [ "$capture" != direct ] && words+=(--raw-out "$work/objects/$(printf '%02d' "$number")-$id-raw.dcm")
    [ "$view" = tooth-closeup ] && words+=(--like teeth-front-occlusion)
    if vestibule wrap "$work/$file" "${words[@]}" >/dev/null 2>"$work/sentence.txt"; then
      printf '  %-34s %s%s\n' "$file" "$view" "$(how "$capture" "$exif")"
    else
      printf '  %-34s held back\n' "$file"
      sed "s#$work/##; s#^vestibule wrap: ##" "$work/sentence.txt" >>"$work/held-back.txt"
    fi
  done < <(tail -n +2 "$work/catalogue.tsv" | tr '\t' '\037')
  rm -f "$work/sentence.txt"
  sed 's/^/  held back: /' "$work/held-back.txt"
}

# In words what had to be done to a picture.
how() {
  [ "$2" = 1 ] || printf ', turned upright'
  [ "$1" = direct ] || printf ', by mirror: corrected, raw kept beside'
}

settings() {
  cat >"$work/vestibule.toml" <<'TOML'
[practice]
name = "Practice at the Painted Gate"
station = "ROOM 2"
issuer = "PAINTED-GATE"
zone = "Europe/Berlin"
TOML
}

build
rm -rf "$work"
mkdir -p "$work"
draw_card
settings
start_archive
wrap_card

say "Checking every object against the standard"
(cd "$work" && java -jar "$validator" objects --report json=validator.json --report text=validator.txt)

say "Sending"
(cd "$work" && vestibule send objects --to "$url")

say "What a clinician finds in the archive"
vestibule patients --to "$url" --photographs

vestibule sheet "$work/archive" --out "$work/contact-sheet.html" --notes "$work/held-back.txt" --title "Contact sheet (invented patients)"
stop
say "Left to look at"
echo "  objects        $work/objects"
echo "  contact sheet  $work/contact-sheet.html"
echo "  validator      $work/validator.txt, validator.json"
echo
echo "Invented patients, drawn pictures, an archive for demonstration only. Not a medical device."
