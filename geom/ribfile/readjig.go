package ribfile

import "math"

// Jig is [jig]: the board the rib is built on, and the blocks that hold its parts there.
type Jig struct {
	Blocks      string  // "fewest", "both-sides" or "none"
	BlockLength float64 // along the edge a block bears on
	BlockWidth  float64 // away from that edge
	BlockHeight float64 // up from the board
	Clearance   float64 // between block and wood
	Spacing     float64 // most between two pairs of blocks along a cap
	Room        float64 // kept free around plates and spar openings, for fingers and clamps
	Relief      float64 // diameter of the hole under each joint; 0: none
	Margin      float64 // of the board around the rib
}

// Defaults of the jig (common practice, no source).
const (
	defaultBlocks      = "fewest"
	defaultBlockLength = 3 * MMPerInch / 4
	defaultBlockWidth  = MMPerInch / 2
	defaultBlockRise   = 0.75            // of a block's height, as a share of the rib's thickness
	defaultPlay        = MMPerInch / 128 // of a block's clearance
	defaultSpacing     = 8 * MMPerInch
	defaultRoom        = MMPerInch / 16
	defaultRelief      = 7 * MMPerInch / 8
	defaultBoardMargin = 2 * MMPerInch
)

func (r *reader) jig(t tab) {
	// To a millionth, so that three quarters of 1/2 in are 3/8 in.
	rise := math.Round(defaultBlockRise*min(r.doc.Cap.Width, r.doc.Stick.Width)*1e6) / 1e6
	j, block := &r.doc.Jig, limit{min: 4, max: 200}
	j.Blocks = t.choice("blocks", defaultBlocks, "fewest", "both-sides", "none")
	j.BlockLength, _ = t.length("block_length", defaultBlockLength, block)
	j.BlockWidth, _ = t.length("block_width", defaultBlockWidth, block)
	j.BlockHeight, _ = t.length("block_height", rise, limit{min: 2, max: 200})
	j.Clearance, _ = t.length("clearance", defaultPlay, limit{min: 0, max: MMPerInch / 8})
	j.Spacing, _ = t.length("spacing", max(defaultSpacing, 2*j.BlockLength), limit{min: 2 * j.BlockLength, max: 2000})
	j.Room, _ = t.length("room", defaultRoom, limit{min: 0, max: 2 * MMPerInch})
	j.Relief, _ = t.length("relief", defaultRelief, limit{min: 0, max: 4 * MMPerInch})
	j.Margin, _ = t.length("margin", defaultBoardMargin, limit{min: 0, max: 20 * MMPerInch})
}
