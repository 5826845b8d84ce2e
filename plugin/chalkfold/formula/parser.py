"""Reads a formula: one precedence parser, at most one fault, bounded in length and depth."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

from chalkfold.amounts.kinds import Kind
from chalkfold.amounts.literals import scan
from chalkfold.diagnostics import Code, Faults
from chalkfold.formula import advice
from chalkfold.formula.expression import Apply, Expression, Literal, Name, key_of
from chalkfold.formula.lexer import Sort, Token, Trouble, is_unit
from chalkfold.formula.printing import BARE_NUMBER, BINARY, Level
from chalkfold.formula.signatures import PRIMITIVES
from chalkfold.formula.stream import Stream
from chalkfold.reading import Text

DEEPEST = 50


def parse(text: Text, faults: Faults) -> Expression | None:
    """Read one formula; None, with one fault, where it cannot be read."""
    try:
        parser = Parser(text)
        part = parser.expression(Level.IF)
        parser.expect_end()
    except Trouble as trouble:
        trouble.report(text, faults)
        return None
    return part.node


@dataclass(frozen=True, slots=True)
class Part:
    """An expression with the characters it takes up, brackets included, and the height of its tree."""

    node: Expression
    start: int
    end: int
    height: int = 1


class Parser(Stream):
    """Raises Trouble. ``_last`` is the operand read last, for hints."""

    def __init__(self, text: Text) -> None:
        super().__init__(text)
        self._depth = 0
        self._last: Part | None = None

    def expect_end(self) -> None:
        if self.token.sort is not Sort.END:
            raise self._unexpected()

    def expression(self, least: Level) -> Part:
        """Read operands and the operators between them that hold at least as tightly as ``least``."""
        left = self._operand(least)
        while (level := self._operator_level()) is not None and level >= least:
            left = self._binary(left)
        return left

    def _operator_level(self) -> Level | None:
        if self.token.sort in (Sort.SIGN, Sort.WORD) and self.token.text in BINARY:
            return BINARY[self.token.text][0]
        return None

    def _binary(self, left: Part) -> Part:
        sign = self.advance()
        level, _, least_right = BINARY[sign.text]
        if sign.text in advice.SPACES:
            self._check_spaces(sign)
        if sign.text == "^":
            self._check_base(left, sign)
        right = self._nested(self._exponent if sign.text == "^" else lambda: self.expression(least_right))
        if level is Level.COMPARE and self._operator_level() is Level.COMPARE:
            raise self.trouble(self.token, advice.COMPARED_TWICE)
        return self._make(sign.text, left, right)

    def _check_spaces(self, sign: Token) -> None:
        value = self.text.value
        spaced = value[sign.start - 1].isspace() and value[sign.end : sign.end + 1].isspace()
        if value[sign.start : sign.end] in advice.SPACES and not spaced and self.token.sort is not Sort.END:
            hint = f"write `{self._before()} {sign.text} {advice.operand(self.token)}`"
            raise self.trouble(sign, (advice.SPACES[sign.text], hint))

    def _check_base(self, left: Part, sign: Token) -> None:
        bracketed = self.text.value[left.start] == "("
        if isinstance(left.node, Literal) and not bracketed and not BARE_NUMBER.fullmatch(left.node.text):
            wrong = advice.unclear_base(self.source(left.start, left.end), advice.operand(self.token))
            raise Trouble(Code.FORMULA_SYNTAX, *wrong, left.start, sign.end)

    def _exponent(self) -> Part:
        if self.at(Sort.SIGN, "-"):
            sign = self.advance()
            return self._make("neg", self._nested(self._exponent), start=sign.start)
        return self.expression(Level.POWER)

    def _operand(self, least: Level) -> Part:
        if self.at(Sort.SIGN, "-") and least <= Level.NEG:
            sign = self.advance()
            return self._make("neg", self._inner(Level.NEG), start=sign.start)
        if self.at(Sort.WORD, "not"):
            return self._not(least)
        if self.at(Sort.WORD, "if"):
            return self._if(least)
        self._last = self._primary()
        return self._last

    def _not(self, least: Level) -> Part:
        word = self.advance()
        if least > Level.NOT:
            raise self.trouble(word, advice.NOT_INSIDE)
        return self._make("not", self._inner(Level.NOT), start=word.start)

    def _if(self, least: Level) -> Part:
        word = self.advance()
        if least > Level.IF:
            raise self.trouble(word, advice.IF_INSIDE)
        test = self._inner()
        self._expect_word("then", word)
        yes = self._inner()
        self._expect_word("else", word)
        return self._make("if", test, yes, self._inner(), start=word.start)

    def _expect_word(self, word: str, opener: Token) -> None:
        if self.at(Sort.WORD, word):
            self.advance()
        elif self._starts_operand():
            raise self._unexpected()
        else:
            raise self.trouble(opener, (f"this `if` has no `{word}`", "write `if … then … else …`"))

    def _primary(self) -> Part:
        token = self.token
        if token.sort is Sort.AMOUNT:
            return self._amount(self.advance())
        if token.sort is Sort.NAME:
            return self._named(self.advance())
        if token.sort is Sort.OPEN:
            opener = self.advance()
            inner = self._inner()
            return Part(inner.node, opener.start, self._close(opener), inner.height)
        if self.at(Sort.WORD, "pi"):
            return self._constant(self.advance(), pi)
        raise self.trouble(token, advice.no_operand(token, self.before))

    def _amount(self, token: Token) -> Part:
        scanned = scan(self.text.value, token.start)
        assert scanned is not None  # the lexer has seen it
        if "/" in token.text:
            self._check_no_stroke_before(token)
        span = self.text.span(token.start, token.end)
        return Part(Literal(scanned.value, scanned.kind, scanned.text, span), token.start, token.end)

    def _check_no_stroke_before(self, fraction: Token) -> None:
        """No ``/`` or ``^`` may stand right before a fraction, minus signs aside."""
        value, at = self.text.value, fraction.start - 1
        while at >= 0 and (value[at].isspace() or value[at] in "-−"):
            at -= 1
        if at >= 0 and (sign := {"/": "/", "÷": "/", "^": "^"}.get(value[at])):
            typed = self.source(at + 1, fraction.end)
            raise self.trouble(fraction, advice.two_ways(self._before(), sign, typed))

    def _constant(self, token: Token, value: float) -> Part:
        span = self.text.span(token.start, token.end)
        return Part(Literal(value, Kind.PLAIN, key_of(token.text), span), token.start, token.end)

    def _close(self, opener: Token) -> int:
        if self.token.sort is Sort.END:
            raise self.trouble(opener, advice.NEVER_CLOSED)
        if self.token.sort is not Sort.CLOSE:
            raise self._unexpected()
        return self.advance().end

    def _named(self, first: Token) -> Part:
        if key_of(first.text) == "half":
            if not self.at(Sort.WORD, "of"):
                raise self.trouble(first, advice.HALF)
            return self._constant(first, 0.5)
        name, last = self._measure(first)
        if self.token.sort is Sort.OPEN:
            return self._call(name, first.start, last.end)
        if is_unit(name):
            raise self.trouble(first, advice.unit_alone(name), Code.FORMULA_NAME)
        return Part(Name(name, self.text.span(first.start, last.end)), first.start, last.end)

    def _measure(self, first: Token) -> tuple[str, Token]:
        """A name goes on over ``of``: ``total waist of skirt`` is one name."""
        words, last = [first.text], first
        while self.at(Sort.WORD, "of"):
            of = self.advance()
            if self.token.sort is not Sort.NAME or key_of(self.token.text) == "half":
                raise self.trouble(of, advice.name_of(" of ".join(words), self.token))
            last = self.advance()
            words.append(last.text)
        return " of ".join(words), last

    def _call(self, name: str, start: int, end: int) -> Part:
        primitive = PRIMITIVES.get(key_of(name))
        if primitive is None or not primitive.called:
            raise Trouble(Code.FORMULA_FUNCTION, *advice.unknown_function(name), start, end)
        opener = self.advance()
        args: list[Part] = []
        while self.token.sort is not Sort.CLOSE or args:
            args.append(self._inner())
            if self.token.sort is not Sort.COMMA:
                break
            self.advance()
        end = self._close(opener)
        if not primitive.takes(len(args)):
            raise Trouble(Code.FORMULA_FUNCTION, *advice.wrong_count(primitive, len(args)), start, end)
        return self._make(primitive.name, *args, start=start, end=end)

    def _make(self, op: str, *parts: Part, start: int | None = None, end: int | None = None) -> Part:
        """Build a node; its place goes from the first part to the last unless told otherwise."""
        first = parts[0].start if start is None else start
        last = parts[-1].end if end is None else end
        height = 1 + max(part.height for part in parts)
        if height > DEEPEST:
            raise Trouble(Code.FORMULA_TOO_DEEP, *advice.TOO_DEEP, first, last)
        node = Apply(op, tuple(part.node for part in parts), self.text.span(first, last))
        return Part(node, first, last, height)

    def _inner(self, least: Level = Level.IF) -> Part:
        return self._nested(lambda: self.expression(least))

    def _nested(self, read: Callable[[], Part]) -> Part:
        self._depth += 1
        if self._depth > DEEPEST:
            raise self.trouble(self.token, advice.TOO_DEEP, Code.FORMULA_TOO_DEEP)
        part = read()
        self._depth -= 1
        return part

    def _starts_operand(self) -> bool:
        words = self.token.sort is Sort.WORD and self.token.text in ("pi", "if", "not")
        return words or self.token.sort in (Sort.AMOUNT, Sort.NAME, Sort.OPEN)

    def _unexpected(self) -> Trouble:
        if self._last is None or not self._starts_operand():
            return self.trouble(self.token, advice.unexpected(self.token))
        wrong = advice.missing_operator(self._before(), self._last.node, self.token)
        return self.trouble(self.token, wrong, Code.FORMULA_OPERATOR)

    def _before(self) -> str:
        """The operand read last, as typed."""
        return self.source(self._last.start, self._last.end) if self._last else "…"
