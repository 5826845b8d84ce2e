"""The closed list of fault codes. Meaning and an example of each stand in ``codes.yml``."""

from enum import StrEnum


class Code(StrEnum):
    """``room.fault``; the room is the part of the work in which the fault is noticed."""

    # files
    FILE_NOT_TEXT = "file.not-text"
    FILE_MISSING = "file.missing"
    FILE_OUTSIDE = "file.outside-the-site"
    FILE_TOO_LONG = "file.too-long"
    FILE_TWO_VERSIONS = "file.two-versions"
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

    # checks that are made by themselves, in the order of trade/checks.yml
    CHECK_PULL_ON = "check.pull-on"
    CHECK_ELASTIC_REACHES = "check.elastic-reaches"
    CHECK_CASING = "check.casing"
    CHECK_TURNING = "check.turning"
    CHECK_HALF_AND_QUARTER = "check.half-and-quarter"
    CHECK_FACING = "check.facing"
    CHECK_WALKING_EASE = "check.walking-ease"
    CHECK_GATHERS = "check.gathers"
    CHECK_HEM_DEPTH = "check.hem-depth"
    CHECK_COUNTS = "check.counts"
    CHECK_POSITIONS = "check.positions"
    CHECK_BACK_CHECK = "check.back-check"

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
    CHILDREN = "block.children"
    CAUTIONS = "block.cautions"
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

    # the preview
    PREVIEW_FAILED = "preview.failed"

    # paper
    PRINT_ORDER = "print.order"
    PRINT_LIBRARY = "print.library"

    # what `check` finds in a site that builds
    MISLEADS_TYPED = "misleads.typed-number"
    MISLEADS_NOWHERE = "misleads.number-from-nowhere"
    MISLEADS_ALLOWED = "misleads.allowed-in-vain"
    MISLEADS_STEPS = "misleads.step-numbers"
    MISLEADS_STEP_NAMES = "misleads.step-names-nothing"
    MISLEADS_PICTURE = "misleads.picture-without-text"
    MISLEADS_REFERENCE = "misleads.dead-reference"
    MISLEADS_FINISHED = "misleads.no-finished-measures"
    MISLEADS_NOT_CUT = "misleads.never-cut"
    MISLEADS_UNUSED = "misleads.unused-number"
