"""The certificates, judged by OpenSSL and not by the library that made them."""

from __future__ import annotations

import os
import socket
import ssl
import stat
import threading
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec

from undertile.errors import StoreError
from undertile.hosts.server import authority as made
from undertile.hosts.server.authority import authority_for

NAME = "undertile-test.local"


def shaken(chain: Path, key: Path, trusted: Path, name: str) -> str:
    """Shake hands as a phone would that trusts one authority; "" or why OpenSSL refuses."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(chain, key)
    client = ssl.create_default_context(cafile=str(trusted))
    ours, theirs = socket.socketpair()

    def serve() -> None:
        try:
            server.wrap_socket(theirs, server_side=True).close()
        except OSError:
            theirs.close()

    thread = threading.Thread(target=serve)
    thread.start()
    try:
        client.wrap_socket(ours, server_hostname=name).close()
        return ""
    except ssl.SSLCertVerificationError as error:
        return error.verify_message
    finally:
        ours.close()
        thread.join()


def test_a_phone_that_trusts_it_shakes_hands_under_the_name_and_under_no_other(tmp_path: Path) -> None:
    """Independent: OpenSSL."""
    kept = authority_for(NAME, tmp_path)
    trusted = tmp_path / made.AUTHORITY
    assert shaken(kept.chain, kept.key, trusted, NAME) == ""
    assert "mismatch" in shaken(kept.chain, kept.key, trusted, "bank.example")


@pytest.mark.parametrize("name", ["bank.example", "192.168.1.20", "other.local", "10.0.0.1"])
def test_whoever_steals_the_key_can_speak_for_no_other_name(tmp_path: Path, name: str) -> None:
    """Published: RFC 5280, 4.2.1.10, name constraints; judged by OpenSSL."""
    authority_for(NAME, tmp_path)
    forged(tmp_path, name)
    said = shaken(tmp_path / made.CHAIN, tmp_path / made.KEY, tmp_path / made.AUTHORITY, name)
    assert "permitted subtree violation" in said or "excluded subtree violation" in said


def test_the_kept_key_is_constrained_below_the_anchor_and_the_anchor_s_own_key_is_gone(
    tmp_path: Path,
) -> None:
    """Published: RFC 5280, 6.1: an anchor's constraints may be passed over, an issuer's may not."""
    kept = authority_for(NAME, tmp_path)
    issuer = x509.load_pem_x509_certificate((tmp_path / made.ISSUER).read_bytes())
    for certificate in (kept.certificate, issuer):
        found = certificate.extensions.get_extension_for_class(x509.NameConstraints)
        assert found.critical
        assert found.value.permitted_subtrees == [x509.DNSName(NAME)]
    assert not [path for path in tmp_path.iterdir() if _signs_for(path, kept.certificate)]


def _signs_for(path: Path, certificate: x509.Certificate) -> bool:
    """Whether a file holds the key of a certificate."""
    try:
        key = serialization.load_pem_private_key(path.read_bytes(), None)
    except ValueError:
        return False
    return key.public_key() == certificate.public_key()


def forged(folder: Path, name: str) -> None:
    """What a thief of the issuer's key would make."""
    key = serialization.load_pem_private_key((folder / made.ISSUER_KEY).read_bytes(), None)
    assert isinstance(key, ec.EllipticCurvePrivateKey)
    issuer = x509.load_pem_x509_certificate((folder / made.ISSUER).read_bytes())
    made._write_leaf(name, folder, issuer, key, datetime.now(UTC))


def test_an_address_that_was_chosen_as_name_is_the_only_one_it_speaks_for(tmp_path: Path) -> None:
    """Independent: OpenSSL."""
    kept = authority_for("192.168.1.20", tmp_path)
    trusted = tmp_path / made.AUTHORITY
    assert shaken(kept.chain, kept.key, trusted, "192.168.1.20") == ""
    for other in ("192.168.1.21", "bank.example"):
        forged(tmp_path, other)
        assert "subtree violation" in shaken(kept.chain, kept.key, trusted, other)


def test_keys_are_their_owner_s_alone(tmp_path: Path) -> None:
    authority_for(NAME, tmp_path)
    for name in (made.KEY, made.ISSUER_KEY):
        assert stat.S_IMODE((tmp_path / name).stat().st_mode) == 0o600
    os.chmod(tmp_path / made.ISSUER_KEY, 0o644)
    with pytest.raises(StoreError, match=r"0600.*found 0644"):
        authority_for(NAME, tmp_path)


def test_it_lasts_and_is_renewed_without_any_phone_being_asked(tmp_path: Path) -> None:
    """Published: at most 825 days for a server's certificate (Apple, HT210176; from memory)."""
    first = authority_for(NAME, tmp_path)
    leaf = x509.load_pem_x509_certificate(first.chain.read_bytes())
    assert (leaf.not_valid_after_utc - leaf.not_valid_before_utc).days <= 825
    assert first.is_new
    again = authority_for(NAME, tmp_path)
    assert (again.is_new, again.certificate) == (False, first.certificate)
    assert x509.load_pem_x509_certificate(again.chain.read_bytes()) == leaf
    soon = datetime.now(UTC) + timedelta(days=310)
    later = authority_for(NAME, tmp_path, soon)
    assert (later.is_new, later.certificate) == (False, first.certificate)
    fresh = x509.load_pem_x509_certificate(later.chain.read_bytes())
    assert fresh.not_valid_after_utc > leaf.not_valid_after_utc
    ended = authority_for(NAME, tmp_path, datetime.now(UTC) + timedelta(days=2000))
    assert ended.is_new, "after five years phones are told anew, and the person is told so"


@pytest.mark.parametrize("torn", [made.AUTHORITY, made.ISSUER, made.ISSUER_KEY])
def test_what_is_torn_is_said_and_not_replaced_in_silence(tmp_path: Path, torn: str) -> None:
    authority_for(NAME, tmp_path)
    path = tmp_path / torn
    path.write_bytes(path.read_bytes()[:60])
    with pytest.raises(StoreError, match="set the phones up anew"):
        authority_for(NAME, tmp_path)


def test_another_name_is_not_signed_for(tmp_path: Path) -> None:
    authority_for(NAME, tmp_path)
    with pytest.raises(StoreError, match=r"of other\.local"):
        authority_for("other.local", tmp_path)


def test_a_torn_server_certificate_is_simply_made_again(tmp_path: Path) -> None:
    kept = authority_for(NAME, tmp_path)
    for path in (kept.chain, kept.key):
        path.write_bytes(b"torn")
        again = authority_for(NAME, tmp_path)
        assert shaken(again.chain, again.key, tmp_path / made.AUTHORITY, NAME) == ""
