package ribfile

// The codes of the findings that the reader gives. They are stable: tests and scripts rely on them.
const (
	// The file as text.
	CodeFileLarge = "file-large"    // no rib file at all, by its size
	CodeEncoding  = "text-encoding" // not UTF-8
	CodeSyntax    = "toml-syntax"   // not TOML

	// Keys and values.
	CodeKeyUnknown        = "key-unknown"
	CodeKeyDoubled        = "key-doubled" // a key or table that stands twice
	CodeTypeWrong         = "type-wrong"  // a number for a text, a table for a list
	CodeTooMany           = "too-many"    // more entries than a rib can have
	CodeValueMissing      = "value-missing"
	CodeUnitsMissing      = "units-missing" // bare lengths, and no units
	CodeChoiceUnknown     = "choice-unknown"
	CodeMaterialUnknown   = "material-unknown"
	CodeTextUnfit         = "text-unfit"         // empty, too long, or with signs that cannot be printed
	CodeLengthUnreadable  = "length-unreadable"  // text that is no length
	CodeMeasureUnreadable = "measure-unreadable" // text that is no mass, temperature, time or spread rate
	CodeNumberUnreadable  = "number-unreadable"  // nan, inf
	CodeSizeImpossible    = "size-impossible"    // got, limit and unit are set
	CodeRatioUnreadable   = "ratio-unreadable"

	// The section.
	CodeSectionSource    = "section-source"  // none, or more than one
	CodeNACAUnreadable   = "naca-unreadable" // not four or five digits
	CodeFileName         = "file-name"       // not beside the rib file
	CodeOrdinateRow      = "ordinate-row"    // not three numbers
	CodeOrdinatesFew     = "ordinates-few"
	CodeOrdinatesOrder   = "ordinates-order"   // stations that do not grow
	CodeOrdinatesCrossed = "ordinates-crossed" // the lower surface above the upper one
	CodeSectionKey       = "section-key"       // a key for another kind of section
	CodeSkinBackwards    = "skin-backwards"

	// Bending.
	CodeBendOrder = "bend-order" // limits that do not fall from dry to soak

	// Stations, spars and blocks.
	CodeStationOutside = "station-outside" // before the leading edge, or aft of the rib's end
	CodeStationInSpar  = "station-in-spar"
	CodeSparName       = "spar-name"
	CodeSparDoubled    = "spar-doubled" // two of one name
	CodeSparUnknown    = "spar-unknown"
	CodeSparOrder      = "spar-order" // not nose to tail
	CodeSparOverlap    = "spar-overlap"
	CodeRibCut         = "rib-cut"      // nothing left between the rib's ends
	CodeSparOutside    = "spar-outside" // its opening breaks out at an end of the rib
	CodeBlockOverlap   = "block-overlap"
	CodeCapFrom        = "cap-from"      // caps that begin on no nose block
	CodeBlockMissing   = "block-missing" // a bay to a block that is not there

	// Bays, lines and plates.
	CodeBayBackwards    = "bay-backwards"
	CodeBayOverlap      = "bay-overlap"
	CodeBayAcrossSpar   = "bay-across-spar"
	CodePointUnreadable = "point-unreadable"
	CodeLineSameCap     = "line-same-cap"
	CodeJointName       = "joint-name"
	CodeJointDoubled    = "joint-doubled"
	CodeFastenerKey     = "fastener-key" // a staple's key for a nail

	// The wing.
	CodeWingStations = "wing-stations" // none, two ways of giving them, out of order or outside
	CodeWingCount    = "wing-count"    // a number of ribs beside [wing]
	CodeWingWeighed  = "wing-weighed"  // what one rib weighs beside [wing]
	CodeWingSweep    = "wing-sweep"    // the sweep of a spar beside [wing]
	CodeWingRibs     = "wing-ribs"     // [[wing.rib]] names no ribs, or ribs that are not there
	CodeWingKind     = "wing-kind"     // a kind of rib that needs a spar, without one
	CodeWingName     = "wing-name"

	// Adhesive.
	CodeAdhesiveAmount = "adhesive-amount" // more than one key says how much is put on

	// Sheets of plywood.
	CodeSheetOutline = "sheet-outline" // of an offcut: crosses itself, or stands beside a length

	// The scale.
	CodeScaleCups = "scale-cups" // a largest cup below the smallest

	// Bars.
	CodeBarTrimmed = "stock-bar-trimmed" // nothing is left once its ends are trimmed

	// Layers of the drawings.
	CodeLayerName    = "layer-name"
	CodeLayerDoubled = "layer-doubled" // two of one name
	CodeColor        = "colour-unknown"

	// The paper.
	CodePaperUnfit   = "paper-unfit"
	CodePrintedUnfit = "printed-unfit"
	CodePrintedDoubt = "printed-doubt" // a warning: hardly a printer's error; or a note: no correction is needed
)
