#!/usr/bin/env bash
# The whole job on invented patients: a camera card taken in, settled, delivered and committed; the clinician's table; the verdict on the card.
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
  # Not by the function above: what would be ended then is its shell, and the archive would go on
  java -jar "$bridge" archive --port 0 --folder "$work/archive" >"$announced" 2>"$work/archive.log" &
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

# The card is only read. Nobody photographed patient cards, so every photograph waits for a person.
take_in() {
  say "Taking the card in"
  (cd "$work" && vestibule intake card --home home >intake.txt) || [ $? -eq 1 ]
  grep 'taken in' "$work/intake.txt" | sed "s#$work/##"
  echo "$(grep -c 'no-patient' "$work/intake.txt" || true) of them wait for a person: nothing on the card says who is on them"
}

# What a person at the screen would say of each photograph.
settle_card() {
  say "A person says who is on each photograph and what it shows"
  local file id patient issuer name birth sex view capture exif teeth rest words line
  # Columns are parted by tabs; a second one in a row must not be taken for one, hence the other separator.
  while IFS=$'\x1f' read -r file id patient issuer name birth sex view capture exif teeth rest; do
    words=(--by "Demonstration" --view "$view" --capture "$capture" --patient
      "{\"id\":\"$patient\",\"issuer\":\"$issuer\",\"name\":\"$name\",\"birthDate\":\"$birth\",\"sex\":\"$sex\"}")
    [ -n "$teeth" ] && words+=(--teeth "${teeth// /,}")
    [ "$view" = tooth-closeup ] && words+=(--like teeth-front-occlusion)
    line=$(cd "$work" && vestibule settle "${file#card/}" --home home "${words[@]}") || [ $? -eq 1 ]
    printf '  %s  %s%s\n' "${line#*  }" "$view" "$(how "$capture" "$exif")"
  done < <(tail -n +2 "$work/catalogue.tsv" | tr '\t' '\037')
}

# In words what has to be done to a picture.
how() {
  [ "$2" = 1 ] || printf ', turned upright'
  [ "$1" = direct ] || printf ', by mirror: corrected'
}

deliver() {
  say "The service: making, checking, sending, asking for commitment"
  (cd "$work" && vestibule run --home home --to "$url" --until-idle 2>service.log)
}

settings() {
  cat >"$work/vestibule.toml" <<'TOML'
[practice]
name = "Practice at the Painted Gate"
station = "ROOM 2"
issuer = "PAINTED-GATE"
zone = "Europe/Berlin"

[patients]
ask-archive = false      # this archive knows nobody yet

[home]
reserve = "100 MB"
TOML
}

build
rm -rf "$work"
mkdir -p "$work"
draw_card
settings
start_archive
take_in
settle_card
deliver

say "Checking every object in the archive against the standard"
(cd "$work" && java -jar "$validator" archive --report json=validator.json --report text=validator.txt)

say "What a clinician finds in the archive"
vestibule patients --to "$url" --photographs

vestibule sheet "$work/archive" --out "$work/contact-sheet.html" --title "Contact sheet (invented patients)"
stop

say "May the card be cleared?"
(cd "$work" && vestibule status --home home | sed "s#$work/##")

say "Left to look at"
echo "  objects        $work/archive"
echo "  our copies     $work/home/originals"
echo "  contact sheet  $work/contact-sheet.html"
echo "  validator      $work/validator.txt, validator.json"
echo
echo "Invented patients, drawn pictures, an archive for demonstration only. Not a medical device."
