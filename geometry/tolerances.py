"""Every tolerance of this package, with its unit and its reason."""

CHORD_MM = 0.05
"""Largest distance between a curve and the polyline that stands for it. Half of what a hand
knife can follow (common practice, no source); the user may set another."""

CORNER_DEG = 25.0
"""An outline breaks where it turns by more than this within one vertex. Above any step that
flattening a curve of shoe size at CHORD_MM makes (a 3 mm radius turns 21 deg a chord)."""

SAME_POINT_MM = 1e-6
"""Two points closer than this are one: far below any drawing's precision, far above the
rounding of doubles at drawing size."""

JOIN_MM = 0.5
"""Largest gap between loose segments that import closes (and reports)."""

MITRE_LIMIT = 4.0
"""A reflex or acute corner's mitre may run this many setbacks out before it is bevelled."""

SLIVER_MM = 1.0
"""Parts of a backing narrower than this cannot be cut and are removed (and reported)."""

FEATHER_CLEAR_MM = 1.0
"""A backing that ends this close to the feather line shows as a ridge on the last
(common practice, no source)."""

# --- reading drawings ---------------------------------------------------------------------

MAX_FILE_BYTES = 60_000_000
"""Largest drawing that is read: a 200,000-vertex outline takes 5 to 20 MB; far above that a
file is a plan, a scan or a mistake. Taking in its tags alone is half a second per MB (measured), and
nobody should wait longer than a minute."""

MAX_ENTITIES = 300_000
"""Most entities a drawing may expand to once every INSERT is counted out."""

MAX_VERTICES = 6_000_000
"""Most vertices all flattened curves together may have."""

SMALL_WORK = 4e6
"""Work (microseconds of a common desktop computer, estimated) that a small drawing may cost: half of the 8 s
that nobody should wait for one, since computers differ."""

LARGE_WORK = 3e7
"""The same for a drawing from LARGE_FILE_BYTES on: half of a minute."""

LARGE_FILE_BYTES = 5_000_000
"""Between an empty file and this size the work allowed grows from SMALL_WORK to LARGE_WORK."""

MAX_DEGREE = 25
"""Highest degree of a spline that is read; programs draw 3, some up to 11 (from memory)."""

MAX_HALVINGS = 24
"""A part of a spline is halved at most this often: each makes its distance from the chord a quarter, and
4^-24 of FAR_AWAY is a micrometre."""

FAR_AWAY = 1e9
"""A coordinate beyond this (in drawing units) is a fault of the file, not a place."""

ARC_STEP_DEG = 2.0
"""Largest turn of one chord when a curve is flattened, whatever CHORD_MM allows: keeps the
area of a small hole true to 0.02 % (1 - sin t / t)."""

SAME_CURVE_MM = 0.02
"""Two curves that nowhere part by more than this are one curve drawn twice."""

JOIN_LADDER_MM = (0.001, 0.01, 0.05, 0.2, 0.5)
"""Loose ends are joined at the smallest of these that closes an outline, so that a wide gap
elsewhere never pulls together what is drawn exactly. Gaps up to the first are not reported."""

OVERSHOOT_MM = 3.0
"""Lines that run past a corner by no more than this are trimmed (common practice, no source)."""

NEAR_MISS_MM = 25.0
"""A chain whose ends miss each other by less than this was meant to be closed: an error."""

ON_BOUNDARY_MM = 0.5
"""A point or tick this near to an outline belongs to it (a notch)."""

TICK_MM = 12.0
"""A drawn line at the boundary up to this long is a notch, a longer one is a mark
(common practice, no source; notches are 2 to 6 mm)."""

PLAUSIBLE_PIECE_MM = (30.0, 1000.0)
"""Longest side that the largest piece of a shoe upper can have: below lies no upper piece,
above lies no leather (common practice, no source)."""

PUNCHED_MM = 15.0
"""A hole no wider than this is punched (eyelet, buckle, perforation): it keeps its size when
the piece is graded (common practice, no source)."""

SYMMETRY_SHARE = 0.02
"""An outline folded over its axis may miss itself by this share of its area and still count as
symmetric: about 1 mm on the border of a vamp, what drawing by hand leaves."""

RUN_ON_LIMIT = 20.0
"""At a convex corner an offset line runs on straight to meet its neighbour for at most this many
times the wider setback of the two: enough for a corner of 3 degrees."""

SMOOTH_DEG = 15.0
"""Where two edges meet at less than this the outline counts as smooth and a change of setback is
a step: no flattened curve turns so much at a vertex (ARC_STEP_DEG), and an offset line that ran
on over a slighter turn would go far along the neighbour."""

STRAIGHT_DEG = 3.0
"""The same between two straight edges, where nothing can be taken for a curve."""

STEEP_TAPER = 0.5
"""A setback that changes by more than this share of the length walked turns the backing's edge by 27 degrees
away from the upper's: beyond CORNER_DEG it is a corner, not a taper."""

SETBACK_MM = 0.01
"""How exactly a backing keeps its setback; a flattened curve is measured along its polyline."""

CRUMB_MM2 = 0.01
"""Areas below this are rounding of set operations, not parts of a piece."""

SLIVER_MM2 = 0.1
"""A narrow part smaller than this is a crumb at a corner that is not visible, not a sliver."""

HAIR_MM = 0.05
"""A closed ring thinner than this on average is two lines drawn almost over each other."""

LOBE_SHARE = 0.01
"""Where an outline crosses itself, a lobe below this share of the area is a slip of the pen and
is taken off (and reported); above it, each lobe is shown."""

GRID_MM = 1e-7
"""Coordinates of a derived backing lie on this grid, so that hairs thinner than it vanish."""

CUT_EDGE_MM = 0.5
"""A backing nearer than this to the upper's edge counts as reaching it: nobody cuts more finely."""

RIDGE_APART_MM = 3.0
"""Edges of two layers nearer than this show through as one ridge (common practice, no source)."""

RIDGE_LENGTH_MM = 10.0
"""Two lines that merely cross come near each other for less than this; longer is a ridge."""

REPEAT_WARN_RATIO = 1.3
"""Repeats of a strip that differ by more are remarked on: strips of one cloth lie within some ten
per cent of each other (common practice, no source)."""

REPEAT_REFUSE_RATIO = 2.0
"""Repeats that differ by more are no repeats: a clamp slipped or a number is wrong."""

READING_MM = 0.1
"""Least step of an extension reading where nothing else is said: a rule with a loupe, a calliper."""

NEARLY_SAME_RATIO = 1.15
"""A sheet whose loosest direction gives less than this times its tightest is the same all round
for the bench: strips of one cloth scatter by some ten per cent themselves (common practice, no source)."""

TIGHT_UNTOLD_DEG = 60
"""When more than this many degrees cannot be ruled out, the strips do not determine the tight direction."""

STRAIGHT_WITHIN = 0.15
"""A load-extension curve whose half-way reading is off a straight line by more than this bends."""

FREE_MM = 0.0001
"""A cut-out that only touches the outline is drawn in by this, so that the piece stays one area;
far below what any cutter does."""

GAP_SHARE = 0.1
"""A loop whose closed gaps make up more than this share of its length is not an outline."""

TIP_LIMIT = 15.0
"""A pointed tip is not a sliver unless it is this many times longer than SLIVER_MM / 2 where it
gets narrower than SLIVER_MM: tips of more than 7.6 degrees stay as drawn."""

BLEND_LENGTHS = 12.0
"""A jog that grading leaves on a smooth outline is led over within this many times its height,
a slope of 5 degrees that is not visible."""

SEW_MM = 0.3
"""Sew lines of two sizes whose distance from the edge differs by more have been graded with the
piece; less is the drawing's own rounding."""

CORNER_REACH_MM = 0.2
"""Corners are looked for over at least this length on either side: above the jitter of scanned
lines, below any radius that is drawn as a curve on purpose."""

MOST_STRAIN = 3.0
"""A strip that stretches by more than this share of its length is a wrong unit: leathers and backing
cloths break long before (common practice, no source)."""

BAND_MM = 0.5
"""A ring whose cut-out leaves a band narrower than this is one outline drawn twice."""

SPECK_MM2 = 1.0
"""A closed line around less than this is a speck (dust of a scan, a dot of a pattern): no knife cuts it.
Common practice, no source; a drill hole is drawn as a point, or larger."""

SPECK_CROWD = 20
"""This many closed lines below SPECK_MM2 in a drawing of piece size are dust; a few may be punched holes."""

SHEET_SHARE = 0.02
"""A rectangle within this share of a sheet's sides, or of its printed frame's, is of that sheet."""

FRAME_ROOM = 0.8
"""A rectangle of a sheet's size is a frame when what it holds fills less than this of both its sides."""

FOLD_MM = 0.5
"""The two halves of a piece that is folded may differ by this much: what drawing by hand leaves
(common practice, no source)."""

TWIN_MM = 0.05
"""A twin that leaves the mirror image by no more is the mirror image: CHORD_MM, for the same reason."""
