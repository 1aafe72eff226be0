"""Sums up the test reports below a folder: what was skipped and why, what failed, and the three counts as the last line."""

import collections
import pathlib
import sys
import xml.etree.ElementTree as ElementTree


def cases(root):
    for report in sorted(pathlib.Path(root).glob("*/target/surefire-reports/TEST-*.xml")):
        for case in ElementTree.parse(report).getroot().iter("testcase"):
            yield case


def name(case):
    return "%s: %s" % (case.get("classname", "").rsplit(".", 1)[-1], case.get("name", ""))


def reason(skip):
    """What the assumption said; the report has it as an attribute or at the head of a stack trace."""
    words = skip.get("message") or (skip.text or "").split("\n", 1)[0].partition(": ")[2]
    return words.removeprefix("Assumption failed: ").strip() or "no reason given"


def main(root):
    passed, failed, skipped = 0, [], collections.defaultdict(list)
    for case in cases(root):
        skip = case.find("skipped")
        if case.find("failure") is not None or case.find("error") is not None:
            failed.append(name(case))
        elif skip is not None:
            skipped[reason(skip)].append(name(case))
        else:
            passed += 1
    for why, names in sorted(skipped.items()):
        print("Skipped (%d) because %s" % (len(names), why))
        for each in names:
            print("  " + each)
    for each in failed:
        print("FAILED " + each)
    print("%d passed, %d failed, %d skipped" % (passed, len(failed), sum(map(len, skipped.values()))))
    return 0 if passed and not failed else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
