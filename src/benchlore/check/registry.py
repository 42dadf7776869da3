"""All rules, listed by hand: a rule counts when it stands here."""

from __future__ import annotations

from collections.abc import Mapping

from benchlore.check.rule import Rule
from benchlore.check.rules.cause.cause_measured_normal import CauseMeasuredNormal
from benchlore.check.rules.cause.cause_named_twice import CauseNamedTwice
from benchlore.check.rules.cause.cause_without_evidence import CauseWithoutEvidence
from benchlore.check.rules.cause.component_named_once import ComponentNamedOnce
from benchlore.check.rules.cause.designator_does_not_fit_class import DesignatorDoesNotFitClass
from benchlore.check.rules.cause.due_to_nothing import DueToNothing
from benchlore.check.rules.cause.no_fault_found_with_cause import NoFaultFoundWithCause
from benchlore.check.rules.cause.no_proof_for_the_next import NoProofForTheNext
from benchlore.check.rules.cause.not_repaired_without_reason import NotRepairedWithoutReason
from benchlore.check.rules.cause.reading_contradicts_cause import ReadingContradictsCause
from benchlore.check.rules.cause.repaired_without_fix import RepairedWithoutFix
from benchlore.check.rules.cause.repaired_without_root_cause import RepairedWithoutRootCause
from benchlore.check.rules.cause.stopped_but_repaired import StoppedButRepaired
from benchlore.check.rules.collection.duplicate_slug import DuplicateSlug
from benchlore.check.rules.collection.follow_up_not_noted import FollowUpNotNoted
from benchlore.check.rules.collection.follows_later_entry import FollowsLaterEntry
from benchlore.check.rules.collection.follows_missing import FollowsMissing
from benchlore.check.rules.collection.formerly_collision import FormerlyCollision
from benchlore.check.rules.collection.model_under_two_makers import ModelUnderTwoMakers
from benchlore.check.rules.collection.near_duplicate_entry import NearDuplicateEntry
from benchlore.check.rules.collection.one_name_two_spellings import OneNameTwoSpellings
from benchlore.check.rules.equipment.board_marking_is_approval_mark import BoardMarkingIsApprovalMark
from benchlore.check.rules.equipment.made_after_repair import MadeAfterRepair
from benchlore.check.rules.equipment.no_model_no_board import NoModelNoBoard
from benchlore.check.rules.files.bad_file_name import BadFileName
from benchlore.check.rules.files.file_too_large import FileTooLarge
from benchlore.check.rules.files.link_outside import LinkOutside
from benchlore.check.rules.files.not_utf8 import NotUtf8
from benchlore.check.rules.files.reserved_file_name import ReservedFileName
from benchlore.check.rules.files.unreadable_file import UnreadableFile
from benchlore.check.rules.files.wrong_class_folder import WrongClassFolder
from benchlore.check.rules.parts.other_currency import OtherCurrency
from benchlore.check.rules.parts.part_below_original import PartBelowOriginal
from benchlore.check.rules.parts.rating_not_of_component import RatingNotOfComponent
from benchlore.check.rules.parts.rating_unit import RatingUnit
from benchlore.check.rules.parts.rejected_without_reason import RejectedWithoutReason
from benchlore.check.rules.parts.replaced_without_part import ReplacedWithoutPart
from benchlore.check.rules.parts.safety_critical_part_changed import SafetyCriticalPartChanged
from benchlore.check.rules.parts.safety_part_without_original import SafetyPartWithoutOriginal
from benchlore.check.rules.parts.value_not_preferred import ValueNotPreferred
from benchlore.check.rules.photos.label_may_show_serial import LabelMayShowSerial
from benchlore.check.rules.photos.photo_elsewhere import PhotoElsewhere
from benchlore.check.rules.photos.photo_missing import PhotoMissing
from benchlore.check.rules.photos.photo_with_position import PhotoWithPosition
from benchlore.check.rules.photos.photo_without_words import PhotoWithoutWords
from benchlore.check.rules.proof.came_back_but_repaired import CameBackButRepaired
from benchlore.check.rules.proof.no_proof import NoProof
from benchlore.check.rules.proof.soak_is_no_time import SoakIsNoTime
from benchlore.check.rules.reading.bad_date import BadDate
from benchlore.check.rules.reading.bad_form import BadForm
from benchlore.check.rules.reading.bad_money import BadMoney
from benchlore.check.rules.reading.bad_number import BadNumber
from benchlore.check.rules.reading.broken_quotes import BrokenQuotes
from benchlore.check.rules.reading.duplicate_key import DuplicateKey
from benchlore.check.rules.reading.empty_file import EmptyFile
from benchlore.check.rules.reading.empty_value import EmptyValue
from benchlore.check.rules.reading.hidden_character import HiddenCharacter
from benchlore.check.rules.reading.key_not_text import KeyNotText
from benchlore.check.rules.reading.missing_key import MissingKey
from benchlore.check.rules.reading.not_yes_or_no import NotYesOrNo
from benchlore.check.rules.reading.second_colon import SecondColon
from benchlore.check.rules.reading.several_documents import SeveralDocuments
from benchlore.check.rules.reading.tab_indentation import TabIndentation
from benchlore.check.rules.reading.too_long import TooLong
from benchlore.check.rules.reading.too_many_problems import TooManyProblems
from benchlore.check.rules.reading.unknown_format import UnknownFormat
from benchlore.check.rules.reading.unknown_key import UnknownKey
from benchlore.check.rules.reading.unquoted_start import UnquotedStart
from benchlore.check.rules.reading.unreadable_quantity import UnreadableQuantity
from benchlore.check.rules.reading.value_cut_off import ValueCutOff
from benchlore.check.rules.reading.wrong_choice import WrongChoice
from benchlore.check.rules.reading.wrong_type import WrongType
from benchlore.check.rules.reading.yaml_reference import YamlReference
from benchlore.check.rules.reading.yaml_syntax import YamlSyntax
from benchlore.check.rules.readings.ac_dc_mismatch import AcDcMismatch
from benchlore.check.rules.readings.after_outside_expected import AfterOutsideExpected
from benchlore.check.rules.readings.empty_reading import EmptyReading
from benchlore.check.rules.readings.expected_from_nowhere import ExpectedFromNowhere
from benchlore.check.rules.readings.expected_without_limits import ExpectedWithoutLimits
from benchlore.check.rules.readings.guess_did_not_hold import GuessDidNotHold
from benchlore.check.rules.readings.reading_far_from_point import ReadingFarFromPoint
from benchlore.check.rules.readings.unit_does_not_fit_quantity import UnitDoesNotFitQuantity
from benchlore.check.rules.readings.unknown_instrument import UnknownInstrument
from benchlore.check.rules.safety.bypass_left import BypassLeft
from benchlore.check.rules.safety.earth_test_on_class_two import EarthTestOnClassTwo
from benchlore.check.rules.safety.mains_hazard_missing import MainsHazardMissing
from benchlore.check.rules.safety.no_safety_test import NoSafetyTest
from benchlore.check.rules.safety.safety_test_failed import SafetyTestFailed
from benchlore.check.rules.safety.safety_test_outside_limit import SafetyTestOutsideLimit
from benchlore.check.rules.safety.stored_energy_missing import StoredEnergyMissing
from benchlore.check.rules.safety.stored_energy_unit import StoredEnergyUnit
from benchlore.check.rules.symptoms.empty_symptom import EmptySymptom
from benchlore.check.rules.symptoms.opposite_symptoms import OppositeSymptoms
from benchlore.check.rules.symptoms.symptom_both_seen_and_not_seen import SymptomBothSeenAndNotSeen
from benchlore.check.rules.symptoms.symptom_told_not_listed import SymptomToldNotListed
from benchlore.check.rules.symptoms.symptom_twice import SymptomTwice
from benchlore.check.rules.symptoms.symptom_without_term import SymptomWithoutTerm
from benchlore.check.rules.terms.block_not_of_class import BlockNotOfClass
from benchlore.check.rules.terms.failure_mode_not_of_component import FailureModeNotOfComponent
from benchlore.check.rules.terms.retired_term import RetiredTerm
from benchlore.check.rules.terms.unknown_term import UnknownTerm
from benchlore.check.rules.tests.normal_while_fault_away import NormalWhileFaultAway
from benchlore.check.rules.tests.test_before_prerequisite import TestBeforePrerequisite
from benchlore.check.rules.tests.test_needs_power import TestNeedsPower
from benchlore.check.rules.tests.test_needs_power_off import TestNeedsPowerOff
from benchlore.check.rules.text.licence_unknown_form import LicenceUnknownForm
from benchlore.check.rules.text.markup_in_text import MarkupInText
from benchlore.check.rules.text.personal_data import PersonalData
from benchlore.check.rules.text.placeholder_left import PlaceholderLeft
from benchlore.check.rules.text.title_says_nothing import TitleSaysNothing
from benchlore.check.rules.text.unsafe_link import UnsafeLink
from benchlore.check.rules.time.follow_up_before_repair import FollowUpBeforeRepair
from benchlore.check.rules.time.future_date import FutureDate
from benchlore.check.rules.time.implausible_minutes import ImplausibleMinutes
from benchlore.check.rules.time.minutes_do_not_add_up import MinutesDoNotAddUp
from benchlore.check.rules.time.missing_minutes import MissingMinutes
from benchlore.check.rules.tool.ignore_unknown import IgnoreUnknown
from benchlore.check.rules.tool.ignore_unused import IgnoreUnused
from benchlore.check.rules.tool.rule_crashed import RuleCrashed

RULES: tuple[type[Rule], ...] = (
    RuleCrashed,
    RepairedWithoutRootCause,
    NotRepairedWithoutReason,
    StoppedButRepaired,
    CauseWithoutEvidence,
    NoFaultFoundWithCause,
    NoProofForTheNext,
    DesignatorDoesNotFitClass,
    ComponentNamedOnce,
    DueToNothing,
    CauseNamedTwice,
    RepairedWithoutFix,
    CauseMeasuredNormal,
    ReadingContradictsCause,
    DuplicateSlug,
    FormerlyCollision,
    FollowsMissing,
    FollowsLaterEntry,
    FollowUpNotNoted,
    NearDuplicateEntry,
    OneNameTwoSpellings,
    ModelUnderTwoMakers,
    NoModelNoBoard,
    BoardMarkingIsApprovalMark,
    MadeAfterRepair,
    UnreadableFile,
    LinkOutside,
    BadFileName,
    FileTooLarge,
    NotUtf8,
    WrongClassFolder,
    ReservedFileName,
    IgnoreUnknown,
    IgnoreUnused,
    UnitDoesNotFitQuantity,
    AcDcMismatch,
    EmptyReading,
    AfterOutsideExpected,
    GuessDidNotHold,
    ExpectedFromNowhere,
    UnknownInstrument,
    ExpectedWithoutLimits,
    ReadingFarFromPoint,
    PhotoMissing,
    PhotoElsewhere,
    PhotoWithoutWords,
    PhotoWithPosition,
    LabelMayShowSerial,
    NoProof,
    CameBackButRepaired,
    SoakIsNoTime,
    RatingUnit,
    SafetyCriticalPartChanged,
    SafetyPartWithoutOriginal,
    RatingNotOfComponent,
    ReplacedWithoutPart,
    RejectedWithoutReason,
    ValueNotPreferred,
    OtherCurrency,
    PartBelowOriginal,
    HiddenCharacter,
    YamlSyntax,
    TabIndentation,
    SecondColon,
    UnquotedStart,
    BrokenQuotes,
    YamlReference,
    SeveralDocuments,
    DuplicateKey,
    KeyNotText,
    TooManyProblems,
    EmptyFile,
    UnknownKey,
    MissingKey,
    EmptyValue,
    TooLong,
    WrongType,
    WrongChoice,
    UnknownFormat,
    UnreadableQuantity,
    NotYesOrNo,
    BadDate,
    BadNumber,
    BadMoney,
    BadForm,
    ValueCutOff,
    MainsHazardMissing,
    StoredEnergyMissing,
    StoredEnergyUnit,
    BypassLeft,
    NoSafetyTest,
    SafetyTestFailed,
    SafetyTestOutsideLimit,
    EarthTestOnClassTwo,
    SymptomBothSeenAndNotSeen,
    SymptomWithoutTerm,
    EmptySymptom,
    SymptomTwice,
    OppositeSymptoms,
    SymptomToldNotListed,
    MinutesDoNotAddUp,
    MissingMinutes,
    ImplausibleMinutes,
    FutureDate,
    FollowUpBeforeRepair,
    UnknownTerm,
    RetiredTerm,
    BlockNotOfClass,
    FailureModeNotOfComponent,
    NormalWhileFaultAway,
    TestNeedsPowerOff,
    TestNeedsPower,
    TestBeforePrerequisite,
    TitleSaysNothing,
    PersonalData,
    LicenceUnknownForm,
    UnsafeLink,
    MarkupInText,
    PlaceholderLeft,
)
"""Every rule, by code. A code is never given to another rule; a rule that is dropped leaves a gap."""

BY_NAME: Mapping[str, type[Rule]] = {key: rule for rule in RULES for key in (rule.code, rule.name)}
"""Rules by code and by name."""
