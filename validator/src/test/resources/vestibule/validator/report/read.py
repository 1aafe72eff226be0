"""Reads a report with Python's own readers and says what is in it: read.py FORMAT REPORT [SCHEMA].

Prints one line an object or finding, parts separated by tabs; ends with 1 and a sentence if the report breaks its form.
"""
import csv
import io
import json
import sys
import xml.etree.ElementTree as tree

import jsonschema

# Members that OASIS SARIF 2.1.0 requires, and the values it lists, of what our reports use. Transcribed from memory, not from the schema
# file: sarifLog 3.13, run 3.14, tool 3.18, toolComponent 3.19, result 3.27, suppression 3.35, reportingDescriptor 3.49, message 3.11.
LEVEL = {"enum": ["none", "note", "warning", "error"]}
MESSAGE = {"type": "object", "required": ["text"], "properties": {"text": {"type": "string", "minLength": 1}},
           "additionalProperties": False}
DESCRIPTOR = {
    "type": "object", "required": ["id"], "additionalProperties": False,
    "properties": {"id": {"type": "string"}, "shortDescription": MESSAGE, "fullDescription": MESSAGE, "help": MESSAGE,
                   "defaultConfiguration": {"type": "object", "properties": {"level": LEVEL},
                                            "additionalProperties": False}}}
LOCATION = {
    "type": "object", "additionalProperties": False,
    "properties": {
        "physicalLocation": {
            "type": "object", "required": ["artifactLocation"], "additionalProperties": False,
            "properties": {"artifactLocation": {"type": "object", "required": ["uri"], "additionalProperties": False,
                                                "properties": {"uri": {"type": "string", "pattern": r"^[!-~]+$"}}}}},
        "logicalLocations": {
            "type": "array", "uniqueItems": True,
            "items": {"type": "object", "properties": {"fullyQualifiedName": {"type": "string"}},
                      "additionalProperties": False}}}}
SUPPRESSION = {"type": "object", "required": ["kind"], "additionalProperties": False,
               "properties": {"kind": {"enum": ["inSource", "external"]}, "justification": {"type": "string"}}}
RESULT = {
    "type": "object", "required": ["message"], "additionalProperties": False,
    "properties": {"ruleId": {"type": "string"}, "ruleIndex": {"type": "integer", "minimum": 0}, "level": LEVEL,
                   "message": MESSAGE, "locations": {"type": "array", "items": LOCATION},
                   "suppressions": {"type": "array", "items": SUPPRESSION, "uniqueItems": True},
                   "properties": {"type": "object"}}}
DRIVER = {"type": "object", "required": ["name"], "additionalProperties": False,
          "properties": {"name": {"type": "string"}, "fullName": {"type": "string"},
                         "rules": {"type": "array", "items": DESCRIPTOR, "uniqueItems": True}}}
RUN = {"type": "object", "required": ["tool"], "additionalProperties": False,
       "properties": {"tool": {"type": "object", "required": ["driver"], "properties": {"driver": DRIVER},
                               "additionalProperties": False},
                      "results": {"type": "array", "items": RESULT}, "properties": {"type": "object"}}}
SARIF = {"type": "object", "required": ["version", "runs"], "additionalProperties": False,
         "properties": {"$schema": {"type": "string"}, "version": {"const": "2.1.0"},
                        "runs": {"type": "array", "items": RUN}}}


def refuse(sentence):
    sys.exit("read.py: " + sentence)


def of_json(text, schema):
    report = json.loads(text)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(report)
    for one in report["objects"]:
        yield one["path"], one["verdict"], ",".join(finding["rule"] for finding in one["findings"])


def of_sarif(text):
    log = json.loads(text)
    jsonschema.Draft202012Validator(SARIF).validate(log)
    for run in log["runs"]:
        rules = run["tool"]["driver"]["rules"]
        for result in run["results"]:
            name = result.get("ruleId", "")
            if name and rules[result["ruleIndex"]]["id"] != name:
                refuse("ruleIndex of " + name + " points to another rule")
            place = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
            yield place, result["level"], name


def of_csv(text):
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    for row in rows[1:]:
        if len(row) != len(rows[0]):
            refuse("a row has %d fields, the first has %d" % (len(row), len(rows[0])))
        yield row[0], row[1], row[2]


def of_junit(text):
    # common practice, no source: there is no standard for this form; the sums must agree with what is listed
    suite = tree.fromstring(text.encode("utf-8"))
    cases = suite.findall("testcase")
    for name, found in (("tests", len(cases)), ("failures", len(suite.findall("testcase/failure"))),
                        ("errors", len(suite.findall("testcase/error"))),
                        ("skipped", len(suite.findall("testcase/skipped")))):
        if int(suite.get(name)) != found:
            refuse("%s says %s, and there are %d" % (name, suite.get(name), found))
    for case in cases:
        child = next((one for one in case if one.tag in ("failure", "error")), None)
        yield case.get("name"), "pass" if child is None else child.tag, "" if child is None else child.get("type")


def main():
    with open(sys.argv[2], encoding="utf-8", newline="") as file:
        text = file.read()
    if sys.argv[1] == "json":
        with open(sys.argv[3], encoding="utf-8") as file:
            lines = of_json(text, json.load(file))
    else:
        lines = {"sarif": of_sarif, "csv": of_csv, "junit": of_junit}[sys.argv[1]](text)
    for line in lines:
        print(json.dumps(line))


main()
