// Package pack cuts pieces from stock with little waste: plates from sheets, and sticks from bars.
//
// Lengths are millimetres, angles radians, areas mm². It knows no ribs. A job is one struct, and its answer another
// that refers to the job's pieces and stock by their index; no slice that is handed in is changed or kept. Effort is
// counted in steps, not in time: the same job gives the same answer on every machine.
//
// CutBars saws pieces of given lengths from bars:
//
//	|trim| S1        /   S1       | S4     | offcut    |trim|
//	|    |          /             |        |           |    |
//	               shared cut      kerf     kerf
//
// n pieces take n−1 kerfs, and one more where an offcut is left: none is charged after a piece that ends where the bar does.
// What is trimmed off the ends is told apart. Pieces with equal angled cuts lie in each other, turned
// over or end for end, and share the cut; the length that saves is part of the reckoning everywhere, in the bound too. Of all
// plans it seeks the one of fewest bars, or of least cost, and says below which number no plan can be:
//
//   - the linear program of column generation gives a bound, and patterns that fill bars well;
//   - a dive takes the bars the program wants, and asks it again about what is left;
//   - a tree of all patterns that hold the longest piece left proves the rest, where the effort reaches so far.
//
// CutBars does not mind in which order bars come from the rack, and glues nothing: a piece that no bar holds is reported.
//
// Nest lays plates on sheets, whole ones and offcuts of any outline, with a gap between two plates and a margin at the edge:
//
//   - the no-fit region of a plate beside another is where their gap is not kept. Outlines are covered by convex pieces, and
//     the sums of two pieces each, grown by the gap, make up the region; a disc beside a disc has a disc for it, exactly;
//   - a plate goes to the best corner of what is free, in an order and by a rule that are varied;
//   - round plates that fill a sheet of their own lie in staggered rows, the best of both directions and all spacings;
//   - plates of the last sheet are pushed in among those of earlier ones, and what overlaps then is sorted out.
//
// Strip lays them on a strip of open length, which is shortened again and again in that last manner. Outlines must not cross
// themselves and have no holes; arcs count as tangents or chords that hold them, within 0.05 mm, and dents of less than
// 0.3 % of an outline's size as filled. Turns are those that the job allows; nothing is turned over.
package pack
