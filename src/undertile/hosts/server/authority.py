"""A certificate authority of this laptop alone, so that a phone can open it over HTTPS.

The authority a phone is told to trust may speak for one name and nothing else (RFC 5280, 4.2.1.10). Its own
key signs one certificate, the issuer's, and is thrown away; the issuer's key is the only one kept, and since
it stands below the phone's anchor its constraint binds also where those of an anchor are passed over. Whoever
steals it can pretend to be this laptop, and nobody else.
"""

from __future__ import annotations

import ipaddress
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from undertile.errors import StoreError
from undertile.hosts.server import private

AUTHORITY_DAYS = 1826
"""Five years: as long as a laptop serves. (default of ours)"""
LEAF_DAYS = 365
"""Apple's devices refuse more than 825 days under an authority that a person added. (from memory)"""
RENEW_DAYS = 60
EARLY = timedelta(days=2)
"""Certificates begin so much earlier: a phone's clock may be behind."""
AUTHORITY, ISSUER, ISSUER_KEY, CHAIN, KEY = (
    "authority.crt",
    "issuer.crt",
    "issuer.key",
    "server.crt",
    "server.key",
)


@dataclass(frozen=True)
class Authority:
    """An authority as it is kept in a folder.

    Attributes
    ----------
    folder : Path
    certificate : x509.Certificate
        What a phone is told to trust.
    is_new : bool
        Made just now: phones that trusted an earlier one must be told again.
    """

    folder: Path
    certificate: x509.Certificate
    is_new: bool

    @property
    def der(self) -> bytes:
        """The certificate as phones take it in."""
        return self.certificate.public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of the certificate, in groups of four digits, to be compared by eye."""
        digits = self.certificate.fingerprint(hashes.SHA256()).hex().upper()
        return " ".join(digits[at : at + 4] for at in range(0, len(digits), 4))

    @property
    def ends(self) -> datetime:
        """When phones stop trusting it."""
        return self.certificate.not_valid_after_utc

    @property
    def chain(self) -> Path:
        """The server's certificate with the issuer's, as a TLS server presents them."""
        return self.folder / CHAIN

    @property
    def key(self) -> Path:
        """The server's key."""
        return self.folder / KEY


def authority_for(name: str, folder: Path, now: datetime | None = None) -> Authority:
    """The authority kept in a folder and a server certificate that is good now; made where there is none.

    Parameters
    ----------
    name : str
        What the server is called: a name, or an address in a private network.
    folder : Path
        Its owner's alone.
    now : datetime, optional

    Raises
    ------
    StoreError
        If what is kept cannot be used: unreadable, readable by others, or of another name.
    """
    when = now or datetime.now(UTC)
    parts = [folder / each for each in (AUTHORITY, ISSUER, ISSUER_KEY)]
    kept = all(path.is_file() for path in parts)
    if not kept or _loaded(parts[0]).not_valid_after_utc <= when + timedelta(days=1):
        _make(name, folder, when)
        kept = False
    certificate, issuer = _loaded(parts[0]), _loaded(parts[1])
    key = _key(parts[2])
    try:
        issuer.verify_directly_issued_by(certificate)
        fits = issuer.public_key() == key.public_key() and _constrained(name) == _constraints(issuer)
    except (ValueError, TypeError, InvalidSignature):
        fits = False
    if not fits:
        raise StoreError(
            "unusable",
            f"{folder}: expected the authority of {name} with its key, found another; remove the folder and "
            "set the phones up anew (their values stay on them)",
        )
    if not _is_good(folder, name, key, when):
        _write_leaf(name, folder, issuer, key, when)
    return Authority(folder, certificate, not kept)


def _loaded(path: Path) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificate(path.read_bytes())
    except (OSError, ValueError):
        raise StoreError(
            "damaged",
            f"{path}: expected a certificate, found a file that is none or is torn; remove the folder "
            f"{path.parent.name} and set the phones up anew (their values stay on them)",
        ) from None


def _key(path: Path) -> ec.EllipticCurvePrivateKey:
    try:
        key = serialization.load_pem_private_key(private.read(path), None)
    except (ValueError, TypeError):
        key = None
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise StoreError(
            "damaged",
            f"{path}: expected a key, found a file that is none or is torn; remove the folder "
            f"{path.parent.name} and set the phones up anew (their values stay on them)",
        )
    return key


def _is_good(folder: Path, name: str, issuer: ec.EllipticCurvePrivateKey, when: datetime) -> bool:
    """Whether the server's certificate is of this issuer and name and lasts a while."""
    if not ((folder / CHAIN).is_file() and (folder / KEY).is_file()):
        return False
    try:
        leaf = _loaded(folder / CHAIN)
        key = _key(folder / KEY)
        issuer.public_key().verify(
            leaf.signature, leaf.tbs_certificate_bytes, ec.ECDSA(leaf.signature_hash_algorithm or _HASH)
        )
    except (StoreError, InvalidSignature):
        return False
    names = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    lasts = leaf.not_valid_before_utc <= when <= leaf.not_valid_after_utc - timedelta(days=RENEW_DAYS)
    return lasts and list(names) == [_general(name)] and key.public_key() == leaf.public_key()


# Making -------------------------------------------------------------------------------------------------

_HASH = hashes.SHA256()


def _general(name: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _constrained(name: str) -> x509.NameConstraints:
    """This name alone; a kind of name that is not listed would be free, so the other kind is shut out."""
    every = [x509.IPAddress(ipaddress.ip_network(each)) for each in ("0.0.0.0/0", "::/0")]
    own = _general(name)
    if isinstance(own, x509.DNSName):
        return x509.NameConstraints([own], every)
    network = x509.IPAddress(ipaddress.ip_network(own.value))
    return x509.NameConstraints([x509.DNSName("invalid"), network], None)


def _constraints(certificate: x509.Certificate) -> x509.NameConstraints:
    return certificate.extensions.get_extension_for_class(x509.NameConstraints).value


def _subject(words: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, words[:64])])


def _usage(**on: bool) -> x509.KeyUsage:
    names = (
        "digital_signature",
        "content_commitment",
        "key_encipherment",
        "data_encipherment",
        "key_agreement",
        "key_cert_sign",
        "crl_sign",
        "encipher_only",
        "decipher_only",
    )
    return x509.KeyUsage(**{name: on.get(name, False) for name in names})


def _builder(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePublicKey,
    signer: ec.EllipticCurvePublicKey,
    begins: datetime,
    ends: datetime,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder(issuer, subject, key, x509.random_serial_number(), begins, ends)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signer), critical=False)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    )


def _signing(builder: x509.CertificateBuilder, name: str, below: int) -> x509.CertificateBuilder:
    return (
        builder.add_extension(x509.BasicConstraints(ca=True, path_length=below), critical=True)
        .add_extension(_usage(key_cert_sign=True, crl_sign=True), critical=True)
        .add_extension(_constrained(name), critical=True)
    )


def _make(name: str, folder: Path, when: datetime) -> None:
    root, key = ec.generate_private_key(ec.SECP256R1()), ec.generate_private_key(ec.SECP256R1())
    begins, ends = when - EARLY, when + timedelta(days=AUTHORITY_DAYS)
    anchor, issuer = _subject(f"Undertile on {name}"), _subject(f"Undertile on {name}, issuer")
    top = _builder(anchor, anchor, root.public_key(), root.public_key(), begins, ends)
    below = _builder(issuer, anchor, key.public_key(), root.public_key(), begins, ends)
    for old in (AUTHORITY, ISSUER, ISSUER_KEY, CHAIN, KEY):
        (folder / old).unlink(missing_ok=True)
    private.write(folder / ISSUER_KEY, _pem_key(key))
    private.write(folder / ISSUER, _pem(_signing(below, name, 0).sign(root, _HASH)), 0o644)
    private.write(folder / AUTHORITY, _pem(_signing(top, name, 1).sign(root, _HASH)), 0o644)


def _write_leaf(
    name: str, folder: Path, issuer: x509.Certificate, signer: ec.EllipticCurvePrivateKey, when: datetime
) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    ends = min(when + timedelta(days=LEAF_DAYS), issuer.not_valid_after_utc)
    leaf = (
        _builder(
            _subject(f"Undertile on {name}, server"),
            issuer.subject,
            key.public_key(),
            signer.public_key(),
            when - EARLY,
            ends,
        )
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(digital_signature=True), critical=True)
        .add_extension(x509.SubjectAlternativeName([_general(name)]), critical=False)
        .sign(signer, _HASH)
    )
    private.write(folder / KEY, _pem_key(key))
    private.write(folder / CHAIN, _pem(leaf) + _pem(issuer), 0o644)


def _pem(certificate: x509.Certificate) -> bytes:
    return certificate.public_bytes(serialization.Encoding.PEM)


def _pem_key(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
