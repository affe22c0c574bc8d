"""Lengths, angles, masses and areas as people write them: read exactly, written so that they read back.

Decides what each notation means and which ones are too doubtful to guess at. Whether a length is a sensible one for a
wall or a saw is left to ``lathlight.project``; what a nominal size measures is left to ``lathlight.catalog``.
Inside the program a length is millimetres, an angle radians, a mass kilograms.
"""

from __future__ import annotations

import math
import re
import unicodedata
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Literal

INCH = Fraction(127, 5)  # [mm], exact: international inch, NIST SP 811 appendix B.8
FOOT = 12 * INCH
METRE = 1000.0  # [mm]
POUND = Fraction("0.45359237")  # [kg], exact: avoirdupois pound, NIST SP 811 appendix B.8
SQUARE_FOOT = FOOT * FOOT  # [mm2]
LONGEST = 1_000_000  # [mm] a length above one kilometre is a slip of the pen
LONGEST_TEXT = 60  # characters; no notation needs more
ON_GRID = 1e-6  # [mm] nearer than this to the grid is on it: noise of the arithmetic
FINEST = 64  # finest fraction of an inch that is written as one; finer values are written in millimetres
PI = Fraction("3.14159265358979323846264338327950288419716939937510")  # so that degrees round once, when read

PRECISIONS = {"1 mm": Fraction(1), "1/16 in": INCH / 16, "1/32 in": INCH / 32}


class UnitError(ValueError):
    """A notation that cannot be read, or that can be read in two ways."""

    def __init__(self, *, found: str, expected: str, remedy: str) -> None:
        super().__init__(f"found {found}, expected {expected}. {remedy}")
        self.found = found
        self.expected = expected
        self.remedy = remedy


@dataclass(frozen=True, slots=True)
class LengthStyle:
    """How a project writes its lengths: the system, and the smallest step a saw is set to [mm, exact]."""

    system: Literal["metric", "imperial"]
    step: Fraction

    @classmethod
    def metric(cls) -> LengthStyle:
        """Return millimetres, to 1 mm."""
        return cls("metric", Fraction(1))

    @classmethod
    def imperial(cls, denominator: int = 16) -> LengthStyle:
        """Return feet and inches, to 1/16 in or the given fraction of an inch."""
        return cls("imperial", INCH / denominator)

    @classmethod
    def of(cls, units: str, precision: str | None) -> LengthStyle:
        """Return the style of a project's ``units`` and ``precision``.

        Raises
        ------
        ValueError
            Another word than metric or imperial, or a step of the other system.
        """
        match units, precision:
            case "metric", None | "1 mm":
                return cls.metric()
            case "imperial", None:
                return cls.imperial()
            case "imperial", "1/16 in" | "1/32 in":
                return cls("imperial", PRECISIONS[precision])
            case _:
                message = f"no such style: {units}, {precision}"
                raise ValueError(message)


# --- reading -----------------------------------------------------------------------------------------------------

_PLAIN = str.maketrans(
    {
        **dict.fromkeys("\N{PRIME}\N{RIGHT SINGLE QUOTATION MARK}\N{LEFT SINGLE QUOTATION MARK}ʹ´`", "'"),
        **dict.fromkeys("\N{DOUBLE PRIME}\N{RIGHT DOUBLE QUOTATION MARK}\N{LEFT DOUBLE QUOTATION MARK}ʺ", '"'),
        **dict.fromkeys("\N{MINUS SIGN}\N{EN DASH}\N{EM DASH}\N{NON-BREAKING HYPHEN}\N{HYPHEN}", "-"),
        **dict.fromkeys("\N{FRACTION SLASH}\N{DIVISION SLASH}", "/"),
        "\N{MULTIPLICATION SIGN}": "x",
    }
)
_DECIMAL = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_MIXED = r"[0-9]+(?:\s*-\s*|\s+)[0-9]+/0*[1-9][0-9]*"
_AMOUNT = rf"(?:{_MIXED}|[0-9]+/0*[1-9][0-9]*|{_DECIMAL})"
_FEET = r"(?:'|ft\.?|feet|foot)"
_INCHES = r"(?:\"|inches|inch|in\.?)"
_IMPERIAL = re.compile(
    rf"(?:(?P<feet>{_AMOUNT})\s*{_FEET}(?:\s*[-,]?\s*(?P<rest>{_AMOUNT})\s*{_INCHES}?)?|(?P<inches>{_AMOUNT})\s*{_INCHES})"
)
_METRIC_UNIT = {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_METRIC_WORDS = {"millimetre": "mm", "millimeter": "mm", "centimetre": "cm", "centimeter": "cm"} | {
    "metre": "m",
    "meter": "m",
}
_METRIC = re.compile(rf"(?P<amount>{_DECIMAL}|[0-9]+,[0-9]+)\s*(?P<unit>mm|cm|m|(?:{'|'.join(_METRIC_WORDS)})s?)\.?")
_THOUSANDS = re.compile(r"(?P<number>[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?)(?P<unit>\s*[^0-9,.].*)?")
_NOMINAL = re.compile(r"[0-9]+(?:[ -]?[0-9]*/[0-9]+)?\s*x\s*[0-9]+.*")


def parse_length(value: object, *, style: LengthStyle) -> float:
    r"""Length [mm] of a number or text in the file's notation.

    Parameters
    ----------
    value
        Text such as ``8' 0 1/2"``, ``95 1/2 in``, ``7ft 6``, ``2440``, ``2.44 m`` or ``2,44 m``; a unit of the other
        system is accepted in either file. A number without a unit is millimetres in a metric file. May be negative.
    style
        The file's own system.

    Raises
    ------
    UnitError
        No length, or one that can be read in two ways: the message offers both.

    Examples
    --------
    >>> parse_length("8' 0 1/2\"", style=LengthStyle.imperial())
    2451.1
    >>> parse_length(2440, style=LengthStyle.metric())
    2440.0
    """
    text = _as_text(value, what="a length", example=_example(style))
    exact = _read_length(_plain(text), typed=_shown(value), style=style)
    if abs(exact) > LONGEST:
        raise UnitError(
            found=_shown(value),
            expected="a length below one kilometre",
            remedy=f"Give a length such as {_example(style)}.",
        )
    return float(exact)


def _read_length(text: str, *, typed: str, style: LengthStyle) -> Fraction:
    """Return the exact length of plain text, sign first."""
    sign, body = (-1, text[1:].lstrip()) if text.startswith("-") else (1, text.removeprefix("+").lstrip())
    _refuse_doubtful(body, typed=typed, style=style)
    if found := _METRIC.fullmatch(body):
        unit = found["unit"].removesuffix("s")
        return sign * Fraction(found["amount"].replace(",", ".")) * _METRIC_UNIT[_METRIC_WORDS.get(unit, unit)]
    if found := _IMPERIAL.fullmatch(body):
        return sign * _imperial(found, typed=typed)
    if re.fullmatch(_AMOUNT, body):
        return sign * _bare(body, typed=typed, style=style)
    raise UnitError(found=typed, expected="a length with its unit", remedy=f"Give a length such as {_example(style)}.")


def _imperial(found: re.Match[str], *, typed: str) -> Fraction:
    if found["feet"] is None:
        return _amount(found["inches"]) * INCH
    feet, inches = _amount(found["feet"]), _amount(found["rest"] or "0")
    if inches >= 12:
        total = 12 * feet + inches
        raise UnitError(
            found=typed,
            expected="fewer than 12 inches after the feet",
            remedy=f"Type {_feet_and_inches(total, feet_mark='ft', inch_mark='in', gap=' ')} if the sum is meant.",
        )
    return feet * FOOT + inches * INCH


def _bare(text: str, *, typed: str, style: LengthStyle) -> Fraction:
    """Return a number without a unit: millimetres in a metric file, zero anywhere, else doubtful."""
    amount = _amount(text)
    if amount == 0:
        return amount
    if "/" in text:
        raise _fraction_without_unit(text, typed=typed)
    if style.system == "metric":
        if re.fullmatch(r"[1-9][0-9]{0,2}\.[0-9]{3}", text):  # "1.220": a point that parts thousands, or a decimal one
            raise _thousands(text.replace(".", ","), typed=typed, unit="", style=style)
        return amount
    raise UnitError(
        found=f"{typed} without a unit",
        expected="a length with its unit (this file is in feet and inches)",
        remedy=f"Type {text} in for inches or {text} ft for feet.",
    )


def _refuse_doubtful(text: str, *, typed: str, style: LengthStyle) -> None:
    """Raise for what looks like a length and can be read in two ways."""
    if _NOMINAL.fullmatch(text):
        raise UnitError(
            found=typed,
            expected="one actual length",
            remedy="A size such as 2x4 is a nominal name and the piece in the hand is smaller: look its actual "
            "sizes up in the catalogue (lathlight catalog) and type the one that belongs here.",
        )
    if found := _THOUSANDS.fullmatch(text):
        unit = (found["unit"] or "").strip()
        raise _thousands(found["number"], typed=typed, unit=unit, style=style)
    if re.fullmatch(r"[0-9]+,[0-9]+", text):
        number = text.replace(",", ".")
        raise UnitError(
            found=f"{typed} without a unit",
            expected="a length with its unit",
            remedy=f"Type {number} m for metres or {number} mm for millimetres.",
        )


def _thousands(number: str, *, typed: str, unit: str, style: LengthStyle) -> UnitError:
    """Return the error for a comma (or a lone point) before three digits, with every reading."""
    usual, great = ("mm", "m") if style.system == "metric" else ("in", "ft")
    readings = [f"{number.replace(',', '')} {unit or usual}"]
    if number.count(",") == 1 and "." not in number:
        decimal = number.replace(",", ".").rstrip("0").rstrip(".")
        readings += [f"{decimal} {unit}"] if unit else [f"{decimal} {great}", f"{decimal} {usual}"]
    return UnitError(
        found=typed,
        expected="a length without a thousands separator",
        remedy=f"Type {' or '.join(readings)}, as it is meant.",
    )


def _fraction_without_unit(text: str, *, typed: str) -> UnitError:
    parts = re.split(r"[\s-]+", text)
    if len(parts) > 1:
        readings = f"{parts[0]} {parts[1]} in for inches or {parts[0]} ft {parts[1]} in for feet and inches"
    else:
        readings = f"{text} in for inches or {text} ft for feet"
    return UnitError(found=f"{typed} without a unit", expected="a length with its unit", remedy=f"Type {readings}.")


def _amount(text: str) -> Fraction:
    """Return a whole number, decimal, fraction or mixed number, exactly."""
    return sum((Fraction(part) for part in re.split(r"[\s-]+", text)), Fraction(0))


def _plain(text: str) -> str:
    """Return text with one kind of prime, dash, fraction and space, in small letters."""
    spread = "".join(_vulgar(sign) for sign in text)
    return " ".join(spread.translate(_PLAIN).replace("''", '"').lower().split())


def _vulgar(sign: str) -> str:
    """Return a vulgar fraction such as a half spelt out, any other sign as it is."""
    decomposition = unicodedata.decomposition(sign)
    return f" {unicodedata.normalize('NFKC', sign)}" if decomposition.startswith("<fraction>") else sign


def _as_text(value: object, *, what: str, example: str) -> str:
    """Return a number or text as text; nothing else can be a measure."""
    if isinstance(value, str) and len(value) <= LONGEST_TEXT:
        return value
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**15:
        return str(value)
    if isinstance(value, float) and math.isfinite(value):
        return _decimal(value)
    raise UnitError(found=_shown(value), expected=what, remedy=f"Give {what} such as {example}.")


def _shown(value: object) -> str:
    """Return a value as it was typed, short enough for a message."""
    match value:
        case bool():
            text = str(value).lower()
        case str():
            text = f'"{value}"'
        case float() | int():
            text = str(value) if isinstance(value, float) or abs(value) < 10**30 else "a number of over 30 digits"
        case _:
            text = "a table" if isinstance(value, dict) else "a list" if isinstance(value, list) else str(value)
    return text if len(text) <= LONGEST_TEXT else f'{text[: LONGEST_TEXT - 4]}..."'


def _example(style: LengthStyle) -> str:
    return "2440 mm or 2.44 m" if style.system == "metric" else "8 ft 0 1/2 in or 95 1/2 in"


# --- writing -----------------------------------------------------------------------------------------------------


def format_length(mm: float, *, style: LengthStyle, unit_mark: bool = True) -> str:
    r"""Length that reads back exactly with :func:`parse_length`, on the step or not.

    ``unit_mark=False`` leaves "mm" out in a metric project; foot and inch marks always stay.

    Examples
    --------
    >>> format_length(2440.0, style=LengthStyle.metric())
    '2440 mm'
    >>> format_length(2451.1, style=LengthStyle.imperial())
    '8\' 0 1/2"'
    """
    inches = _whole_fraction(mm, style=style)
    if inches is None:
        return f"{_decimal(mm)} mm" if unit_mark or style.system == "imperial" else _decimal(mm)
    return _feet_and_inches(inches, feet_mark="'", inch_mark='"', gap=" ")


def file_length(mm: float, *, style: LengthStyle) -> str:
    """Length as :func:`format_length`, with words for marks, so that it needs no escape between quotation marks.

    Examples
    --------
    >>> file_length(2451.1, style=LengthStyle.imperial())
    '8ft 0 1/2in'
    """
    inches = _whole_fraction(mm, style=style)
    return f"{_decimal(mm)} mm" if inches is None else _feet_and_inches(inches, feet_mark="ft", inch_mark="in", gap=" ")


def drawing_length(mm: float, *, style: LengthStyle) -> str:
    r"""Length for drawings and lists, rounded half up to the project's step; a metric figure has no unit mark.

    Examples
    --------
    >>> drawing_length(2440.4, style=LengthStyle.metric())
    '2440'
    >>> drawing_length(2451.1, style=LengthStyle.imperial()), drawing_length(292.1, style=LengthStyle.imperial())
    ('8\'-0 1/2"', '11 1/2"')
    """
    exact = _nearest(mm, style.step) * style.step
    if style.system == "metric":
        return _decimal(float(exact))
    return _feet_and_inches(exact / INCH, feet_mark="'", inch_mark='"', gap="-")


def run_length(mm: float, *, style: LengthStyle) -> str:
    """Return a length that is bought or laid out, in metres or feet to one decimal.

    Examples
    --------
    >>> run_length(43036.0, style=LengthStyle.metric()), run_length(43036.0, style=LengthStyle.imperial())
    ('43.0 m', '141.2 ft')
    >>> run_length(8430.0, style=LengthStyle.metric()), run_length(8430.0, style=LengthStyle.imperial())
    ('8.4 m', '27.7 ft')
    """
    return f"{mm / METRE:.1f} m" if style.system == "metric" else f"{mm / float(FOOT):.1f} ft"


def _whole_fraction(mm: float, *, style: LengthStyle) -> Fraction | None:
    """Return the inches [in] that stand for exactly this length in an imperial project, or None."""
    if style.system == "metric":
        return None
    for denominator in (int(INCH / style.step), FINEST):
        inches = Fraction(round(mm / 25.4 * denominator), denominator)
        if float(inches * INCH) == mm:
            return inches
    return None


def _feet_and_inches(inches: Fraction, *, feet_mark: str, inch_mark: str, gap: str) -> str:
    sign = "-" if inches < 0 else ""
    feet, rest = divmod(abs(inches), 12)
    whole, part = divmod(rest, 1)
    numbers = [str(whole)] if whole or feet or not part else []
    numbers += [f"{part.numerator}/{part.denominator}"] if part else []
    text = f"{' '.join(numbers)}{inch_mark}"
    return f"{sign}{feet}{feet_mark}{gap}{text}" if feet else f"{sign}{text}"


def _decimal(value: float) -> str:
    """Return the shortest decimal that reads back as this number, without an exponent."""
    text = format(Decimal(repr(float(value))), "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def _rounded(value: float | Fraction, *, decimals: int) -> str:
    """Return a number rounded half up, away from zero, to so many decimals."""
    exact = Decimal(
        repr(round(float(value), decimals + 6))
    )  # noise below a millionth of the last digit does not decide
    rounded = exact.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP)
    return str(rounded + 0) if rounded else str(abs(rounded))


# --- the grid of the saw -----------------------------------------------------------------------------------------


def snap(mm: float, style: LengthStyle) -> float:
    """Return the length [mm] on the project's grid that is nearest, halves away from zero."""
    return _multiple(_nearest(mm, style.step), style.step)


def snap_down(mm: float, style: LengthStyle) -> float:
    """Return the greatest length [mm] on the project's grid that is not greater; what is on the grid stays."""
    return _multiple(math.floor((mm + ON_GRID) / float(style.step)), style.step)


def snap_up(mm: float, style: LengthStyle) -> float:
    """Return the least length [mm] on the project's grid that is not less; what is on the grid stays."""
    return _multiple(math.ceil((mm - ON_GRID) / float(style.step)), style.step)


def _nearest(mm: float, step: Fraction) -> int:
    """Return the whole number of steps nearest to a length, halves away from zero."""
    steps = math.floor((abs(mm) + ON_GRID) / float(step) + 0.5)
    return steps if mm >= 0 else -steps


def _multiple(count: int, step: Fraction) -> float:
    return count * step.numerator / step.denominator  # whole numbers divide with one rounding


# --- angles, masses, areas ---------------------------------------------------------------------------------------

_ANGLE = re.compile(rf"(?P<amount>[-+]?\s*{_DECIMAL})\s*(?:°|deg\.?|degrees?)?")
_MASS = re.compile(rf"(?P<amount>[-+]?\s*{_DECIMAL})\s*(?P<unit>kg|g|lbs?\.?|pounds?|oz)?")
_MASS_UNIT = {"kg": Fraction(1), "g": Fraction(1, 1000), "oz": POUND / 16}


def parse_angle(value: object) -> float:
    """Angle [rad] of a number or text in degrees: ``110``, ``"110 deg"``, ``"110°"``.

    Examples
    --------
    >>> parse_angle("90°") == math.pi / 2
    True
    """
    text = _plain(_as_text(value, what="an angle in degrees", example="110"))
    found = _ANGLE.fullmatch(text)
    if found is None:
        raise UnitError(found=_shown(value), expected="an angle in degrees", remedy="Give a number such as 110.")
    return float(Fraction(found["amount"].replace(" ", "")) * PI / 180)


def exact_degrees(rad: float) -> str:
    """Return the shortest number of degrees that :func:`parse_angle` reads back as exactly this angle [rad]."""
    degrees = Fraction(rad) * 180 / PI
    for digits in range(40):
        text = _decimal_of(degrees, decimals=digits)
        if parse_angle(text) == rad:
            return text
    return format(Decimal(degrees.numerator) / Decimal(degrees.denominator), "f")


def _decimal_of(value: Fraction, *, decimals: int) -> str:
    """Return a fraction to so many decimals, without trailing zeros."""
    scaled = round(abs(value) * 10**decimals)
    digits = str(scaled).rjust(decimals + 1, "0")
    text = f"{digits[: len(digits) - decimals]}.{digits[len(digits) - decimals :]}".rstrip("0").rstrip(".")
    return f"-{text}" if value < 0 and scaled else text


def format_angle(rad: float) -> str:
    """Angle in degrees for people, at most two decimals.

    Examples
    --------
    >>> format_angle(math.pi / 2)
    '90°'
    """
    text = _rounded(math.degrees(rad), decimals=2).rstrip("0").rstrip(".")
    return f"{text}°"


def parse_mass(value: object) -> float:
    """Mass [kg] of a number (kilograms) or text: ``25``, ``"25 kg"``, ``"55 lb"``.

    Examples
    --------
    >>> parse_mass("55 lb")
    24.94758035
    """
    text = _plain(_as_text(value, what="a mass", example="25 kg or 55 lb"))
    found = _MASS.fullmatch(text)
    if found is None:
        raise UnitError(
            found=_shown(value), expected="a mass in kg or lb", remedy="Give a mass such as 25 kg or 55 lb."
        )
    return float(Fraction(found["amount"].replace(" ", "")) * _MASS_UNIT.get(found["unit"] or "kg", POUND))


def file_mass(kg: float, *, style: LengthStyle) -> str:
    """Mass that reads back exactly with :func:`parse_mass`: pounds in an imperial project where they come out short.

    Examples
    --------
    >>> file_mass(25.0, style=LengthStyle.metric()), file_mass(24.94758035, style=LengthStyle.imperial())
    ('25 kg', '55 lb')
    """
    pounds = _decimal(round(kg / float(POUND), 3))
    if style.system == "imperial" and parse_mass(f"{pounds} lb") == kg:
        return f"{pounds} lb"
    return f"{_decimal(kg)} kg"


def format_mass(kg: float, style: LengthStyle) -> str:
    """Mass for lists, one decimal: kilograms in a metric project, pounds in an imperial one.

    Examples
    --------
    >>> format_mass(25.0, LengthStyle.metric()), format_mass(25.0, LengthStyle.imperial())
    ('25.0 kg', '55.1 lb')
    """
    if style.system == "metric":
        return f"{_rounded(kg, decimals=1)} kg"
    return f"{_rounded(Fraction(kg) / POUND, decimals=1)} lb"


def drawing_mass(kg: float, style: LengthStyle) -> str:
    """Mass for drawings: whole kilograms or pounds from ten up, one decimal below."""
    figure, unit = (Fraction(kg), "kg") if style.system == "metric" else (Fraction(kg) / POUND, "lb")
    return f"{_rounded(figure, decimals=1 if abs(figure) < 10 else 0)} {unit}"


def format_area(mm2: float, *, style: LengthStyle) -> str:
    """Area [mm2] in square metres (two decimals) or square feet (one decimal).

    Examples
    --------
    >>> format_area(6.05e6, style=LengthStyle.metric()), format_area(6.05e6, style=LengthStyle.imperial())
    ('6.05 m²', '65.1 sq ft')
    """
    if style.system == "metric":
        return f"{_rounded(mm2 / 1e6, decimals=2)} m²"
    return f"{_rounded(Fraction(mm2) / SQUARE_FOOT, decimals=1)} sq ft"
