"""Writes a C++ file so that each of its tokens can be changed while it runs (schemata.hpp). Knows the house's
formatting (.clang-format): a binary operator has blanks on both sides, the bracket of a template has none."""

import re
from dataclasses import dataclass

COMPARISONS = {"<": ("Less", ">=", "<="), "<=": ("LessEqual", ">", "<"),
               ">": ("Greater", "<=", ">="), ">=": ("GreaterEqual", "<", ">")}
OPERATORS = {"+": ("Plus", "-"), "-": ("Minus", "+"), "*": ("Times", "/"), "/": ("Over", "*"),
             "==": ("Equal", "!="), "!=": ("Unequal", "=="), "+=": ("Add", "-="), "-=": ("Subtract", "+="),
             "*=": ("Multiply", "/="), "/=": ("Divide", "*=")}
FUNCTIONS = {"std::min": ("Min", "std::max"), "std::max": ("Max", "std::min"), "std::floor": ("Floor", "std::ceil"),
             "std::ceil": ("Ceil", "std::floor"), "std::round": ("Round", "std::floor"), "std::abs": ("Abs", "nothing")}
PREFIXES = {"!": ("Not", "nothing"), "-": ("Negative", "nothing"), "++": ("Up", "--"), "--": ("Down", "++")}

HIDDEN = re.compile(
    r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])+\'|^[ ]*#[^\n]*', re.S | re.M)
TEMPLATE = re.compile(r"(?<=\w)<[\w:,*& ]*>")
UNTOUCHED = re.compile(r"\bcase [^:]*:|\bstatic_assert\(.*?\);|\benum [^{;]*\{[^}]*\}", re.S)
BINARY = re.compile(r"(?<=[\w)\]\"'}] )(\+=|-=|\*=|/=|<=|>=|==|!=|&&|\|\||[-+*/<>])(?=\s)")
PREFIX = re.compile(r"(?<![\w)\]+-])(?<![\w)\]] )(?:\+\+|--)(?=\w)|!(?=[\w(])|(?<![\w)\]] )(?<![\w)\]-])-(?=[\w(])")
FUNCTION = re.compile(r"\bstd::(?:min|max|floor|ceil|round|abs)(?=\()")
TRUTH = re.compile(r"\b(?:true|false)\b")
NUMBER = re.compile(r"(?<![\w.])(?:0[xX][0-9a-fA-F]+|(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)[uUlL]*")
# Constants are reckoned at run time in the changed copy, and every file has its own.
CONSTANT = re.compile(r"\b(?:inline )?constexpr (?=double|int\b|auto|std::array|Mark)")


@dataclass(frozen=True)
class Mutant:
    file: str    # from the top of the tree
    line: int    # from 1
    source: str  # the line as it stands, without its indent
    what: str    # "< (1) becomes <=": which token of the line, and its change
    number: int

    def key(self):
        """Stays the same when lines move."""
        return (self.file, self.source, self.what)


def masked(text):
    """The text with all that is no code, and all that is not to be touched, made blank."""
    def blank(found):
        body = found.group(0)
        mark = body[0] if body[0] in "\"'" else " "
        return mark + re.sub(r"[^\n]", " ", body[1:-1]) + (mark if len(body) > 1 else "")
    text = HIDDEN.sub(blank, text)
    while (fewer := TEMPLATE.sub(lambda found: "@" * len(found.group(0)), text)) != text:
        text = fewer
    return UNTOUCHED.sub(lambda found: re.sub(r"[^\n]", " ", found.group(0)), text)


def changed_number(token):
    """Whole numbers one on (a hundredth from 100 up); others a hundredth up; a mere hair to none."""
    digits = token.rstrip("uUlL")
    tail = token[len(digits):]
    if digits.lower().startswith("0x"):
        return hex(int(digits, 16) + 1) + tail
    if digits.isdigit():
        return str(int(digits) + max(1, int(digits) // 100)) + tail
    value = float(digits)
    if value == 0:
        return "1.0" + tail
    return ("0.0" if abs(value) < 1e-5 else f"{value * 1.01:.10g}") + tail


def joins_text(code, start, end):
    """A plus between texts: no arithmetic."""
    before, after = code[:start].rstrip(), code[end:].lstrip()
    return before.endswith('"') or after.startswith('"') or re.match(r"\w+_text\(", after)


def right_side(code, at, token):
    """Where the right side of && or || at `at` begins and ends."""
    begin = at + 2
    while code[begin].isspace():
        begin += 1
    depth, end = 0, begin
    while True:
        here, two = code[end], code[end:end + 2]
        if here in "([{":
            depth += 1
        elif here in ")]}":
            depth -= 1
            if depth < 0:
                break
        elif depth == 0:
            if two == "::":
                end += 2
                continue
            if here in ";,?:" or two == "||" or (two == "&&" and token == "&&"):
                break
        end += 1
    while code[end - 1].isspace():
        end -= 1
    return begin, end


def left_side(code, at, token):
    """Where the left side begins and ends; nothing when it is the right side of another such."""
    end = at
    while code[end - 1].isspace():
        end -= 1
    depth, begin = 0, end
    while True:
        here, two = code[begin - 1], code[begin - 2:begin]
        if here in ")]}":
            depth += 1
        elif here in "([{":
            depth -= 1
            if depth < 0:
                break
        elif depth == 0:
            if two == "::":
                begin -= 2
                continue
            if two == token:
                return None
            if here in ";,?:" or two in ("||", "&&") or re.fullmatch(r"[-+*/ ]= ", code[begin - 3:begin]) or \
                    re.search(r"\breturn $", code[begin - 7:begin]):
                if two == "&&":  # of a lower chain's operand: belongs to this side
                    begin -= 1
                    continue
                break
        begin -= 1
    while code[begin].isspace():
        begin += 1
    return begin, end


def rewritten(file, text, first):
    """Returns the mutants, numbered from `first`, and the text that holds them all."""
    code = masked(text)
    lines = text.splitlines()
    mutants, edits, seen = [], [], {}
    found = [(match.start(), match.group(0), kind)
             for kind, pattern in enumerate((BINARY, PREFIX, FUNCTION, TRUTH, NUMBER))
             for match in pattern.finditer(code)]
    for start, token, kind in sorted(found):
        if kind == 0 and token == "+" and joins_text(code, start, start + 1):
            continue
        line = code.count("\n", 0, start) + 1
        nth = seen[(line, token)] = seen.get((line, token), 0) + 1

        def add(change):
            mutants.append(Mutant(file, line, lines[line - 1].strip(), f"{token} ({nth}) becomes {change}",
                                  first + len(mutants)))
            return mutants[-1].number

        def edit(begin, end, new, outer=0):
            edits.append((begin, -outer, end, new))

        if token in ("&&", "||") and kind == 0:
            for side, name in ((left_side(code, start, token), "its right side"),
                               (right_side(code, start, token), "its left side")):
                if side is not None:
                    number = add(name)
                    guard = f"mutation::on({number}) ||" if token == "&&" else f"!mutation::on({number}) &&"
                    edit(side[0], side[0], f"({guard} (", side[1])
                    edit(side[1], side[1], "))")
        elif token in COMPARISONS and kind == 0:
            name, opposite, edge = COMPARISONS[token]
            number = add(opposite)
            add(edge)
            edit(start, start, f"{token} mutation::{name}{{{number}}} ")
        elif kind == 0:
            name, change = OPERATORS[token]
            edit(start, start, f"{token} mutation::{name}{{{add(change)}}} ")
        elif kind in (1, 2):
            name, change = (PREFIXES if kind == 1 else FUNCTIONS)[token]
            new = f"mutation::{name}{{{add(change)}}}" + ("->*" if kind == 1 else "")
            edit(start, start + len(token), new)
        else:
            change = {"true": "false", "false": "true"}.get(token) or changed_number(token)
            edit(start, start + len(token), f"mutation::pick({add(change)}, {token}, {change})")
    for match in CONSTANT.finditer(code):
        edits.append((match.start(), 0, match.end(), "static const "))
    for begin, _, end, new in sorted(edits, reverse=True):
        text = text[:begin] + new + text[end:]
    return mutants, text
