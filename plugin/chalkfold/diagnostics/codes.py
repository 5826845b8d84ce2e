"""The closed list of fault codes. Meaning and an example of each stand in ``codes.yml``."""

from enum import StrEnum


class Code(StrEnum):
    """``room.fault``; the room is the part of the work in which the fault is noticed."""

    # files
    FILE_NOT_TEXT = "file.not-text"
    FILE_MISSING = "file.missing"
    FILE_OUTSIDE = "file.outside-the-site"
    FILE_TOO_LONG = "file.too-long"
    FILE_FRONT_MATTER = "file.front-matter"
    FILE_SAME_ADDRESS = "file.same-address"

    # YAML that types nothing
    DATA_SYNTAX = "data.syntax"
    DATA_TWICE = "data.key-twice"
    DATA_ANCHOR = "data.anchor-alias-tag"
    DATA_TAB = "data.tab"
    DATA_FLOW_KEY = "data.flow-key-without-value"
    DATA_COLON = "data.colon-in-text"
    DATA_HASH = "data.hash-in-text"
    DATA_QUOTE = "data.needs-quotes"
    DATA_DEEP = "data.too-deep"
    DATA_SHAPE = "data.wrong-shape"
    DATA_EMPTY = "data.empty"
    DATA_UNKNOWN_KEY = "data.unknown-key"
    DATA_MISSING_KEY = "data.missing-key"
    DATA_CHOICE = "data.not-a-choice"

    # amounts
    AMOUNT_COMMA = "amount.decimal-comma"
    AMOUNT_MIXED = "amount.feet-and-inches"
    AMOUNT_UNIT = "amount.unknown-unit"
    AMOUNT_FRACTION = "amount.fraction"
    AMOUNT_NUMBER = "amount.not-an-amount"
    AMOUNT_RANGE = "amount.out-of-range"

    # formulas
    FORMULA_SYNTAX = "formula.syntax"
    FORMULA_OPERATOR = "formula.missing-operator"
    FORMULA_TOO_LONG = "formula.too-long"
    FORMULA_TOO_DEEP = "formula.too-deep"
    FORMULA_FUNCTION = "formula.function"
    FORMULA_KIND = "formula.wrong-kind"
    FORMULA_NAME = "formula.not-a-name"

    # plan
    PLAN_UNKNOWN = "plan.unknown-name"
    PLAN_CIRCLE = "plan.circle"
    PLAN_TWO_BOOKS = "plan.two-books"
    PLAN_EXPECTS = "plan.book-expects"
    PLAN_SIZE_MISSING = "plan.size-missing"
    PLAN_SIZE_UNKNOWN = "plan.size-unknown"
    PLAN_NOT_FOUND = "plan.not-found"
    PLAN_TOO_BIG = "plan.too-big"

    # working it out, in one size or all
    WORK_DIVIDE = "work.division-by-zero"
    WORK_RANGE = "work.out-of-range"
    WORK_NEGATIVE = "work.negative"
    WORK_DOMAIN = "work.outside-domain"
    WORK_DRAFT = "work.cannot-be-drawn"
    WORK_CHECK = "work.check-fails"

    # blocks
    BLOCK_UNKNOWN = "block.unknown"
    BLOCK_UNCLOSED = "block.unclosed"
    BLOCK_LOST = "block.lost"
    BLOCK_SHAPE = "block.body"
    BLOCK_TWICE = "block.given-twice"
    BLOCK_PROJECT = "block.project"
    PIECE = "block.piece"
    DRAFT = "block.draft"
    SPACING = "block.spacing"
    SEW = "block.sew"
    EXAMPLE = "block.example"
    MATERIALS = "block.materials"
    CHECKS = "block.checks"
    VALUE_LEFT = "text.value-left-over"
    VALUE_UNCLOSED = "text.value-unclosed"

    # the site
    SITE_SETTING = "site.setting"
    SITE_THEME = "site.theme"
    SITE_BUSY = "site.busy"
    SITE_LINK = "site.link"
    SITE_OUTPUT = "site.output"
    SITE_PICTURE = "site.picture"
    SITE_LEDGER = "site.ledger"
    SITE_RELEASE = "site.release"

    # paper
    PRINT_ORDER = "print.order"
    PRINT_LIBRARY = "print.library"
