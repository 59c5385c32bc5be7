"""Checks a sealed archive with nothing but a JOSE library and hashlib; prints the key's thumbprint (RFC 7638).

sealed_read_back.py ARCHIVE KEY.pem
"""

import hashlib
import json
import sys
import zipfile

from jwcrypto import jwk, jws


def main(archive, key_file):
    with open(key_file, "rb") as file:
        key = jwk.JWK.from_pem(file.read())
    with zipfile.ZipFile(archive) as sealed:
        names = sealed.namelist()
        assert len(names) == len(set(names)), "a name occurs twice"
        manifest = sealed.read("manifest.json")
        token = jws.JWS()
        token.deserialize(sealed.read("manifest.jws").decode("ascii"))
        token.verify(key)
        assert token.payload == manifest, "the payload is not the manifest"
        assert token.jose_header["jwk"]["x"] == key.export_public(as_dict=True)["x"]
        files = {f["path"]: f for f in json.loads(manifest)["files"]}
        assert set(names) == set(files) | {"manifest.json", "manifest.jws"}, "other files than the manifest's"
        for path, file in files.items():
            content = sealed.read(path)
            assert len(content) == file["size"], path
            assert hashlib.sha256(content).hexdigest() == file["sha256"], path
        case = json.loads(sealed.read("results/case.json"))
        recorded = {f["path"]: f["sha256"] for f in case["files"]}
        for path, sha256 in recorded.items():
            assert files[f"job/{path}"]["sha256"] == sha256, path
    print(key.thumbprint())


main(*sys.argv[1:])
