package interview

// What ? says to each question, with a picture where one helps.
var (
	strokeHelp = help{"The stroke is how far the piston travels from its highest place to its lowest, twice the crank throw. The maker's data " +
		"have it. Lengths without a unit are in the job's; 81.4mm, 3.2 in and 3 1/8 in are taken too.", crankPicture}

	unitHelp = help{says: "A length was typed in inches. With y the job is in inches, and a reading without a unit is in inches too. With n " +
		"it is in mm, and a length typed in inches stays the same length."}

	boreHelp = help{says: "The bore is how wide the cylinder is. It is only needed for volumes; leave it out where it is not known."}

	rodHelp = help{"The rod is measured from the centre of the piston pin to the centre of the crank pin. The longer it is, the flatter " +
		"the piston moves about the top.", crankPicture}

	offsetHelp = help{"Some engines have the piston pin off the middle of the piston, or the bore off the middle of the crank. Then the " +
		"piston is highest a little away from where throw and bore are in line. Type no only where the maker's data say so: " +
		"then TDC is known more closely. As typed, pin is toward the thrust side and bore toward the other; minus is the other way. Leave it " +
		"out where nobody knows.", offsetPicture}

	countsHelp = help{"It says which way early and late lie. Turn by hand only, and only once the engine is safe. Where the crank cannot be " +
		"turned yet, press Enter and write it into the job file later. Where it counts up both ways from its zero, the number falls and then " +
		"rises: type both, and give its readings at the next question.", countsPicture}

	aroundHelp = help{"Turn by hand, the way the engine runs: to some 5 deg before the top, read, and on to some 5 deg after it, as in 356 and 4. " +
		"The zero need not be at the top. Where it counts up both ways from its zero, type it as in 4 BTDC and 4 ATDC.", countsPicture}

	rightHelp = help{"With n you are asked one thing at a time.", countsPicture}

	wrapsHelp = help{"Type 360 where it counts 0 to 360 and on. Type 180 where it counts to 180 both ways, with a minus on one side or with BTDC and ATDC. " +
		"Type 90 where it goes up to 90 and back to 0 at the bottom. Type 720 where it counts both turns of a cycle.", quadrantPicture}

	meansHelp = help{"A dial gauge, or a rod with a calliper or rule on it, gives a depth at each angle. Through a borescope a depth is " +
		"judged. A positive stop is screwed into the plug hole, and the piston is brought against it gently, by hand, from either side. " +
		"That gives two angles, and takes no gauge. Dwell is where the piston is seen to stand still and to move again. Several may be named, as " +
		"in dial and stop: they go into one answer.", stopPicture}

	dwellHelp = help{"About the top the piston seems to stand still. Note the angle at which it is seen to stop and the one at which it " +
		"moves again. TDC is half-way or a little before that, as the crank is turned, so look turning both ways where the maker allows it. Through a " +
		"borescope that is a check that costs nothing.", dwellPicture}

	gaugeHelp = help{says: "Turn by hand, so that the piston goes down a little from the top, and watch the gauge. Type y or rose where its number grows, as on a depth rod. " +
		"Type n or fell where it shrinks, as on many a dial whose plunger then comes out."}

	marksHelp = help{says: "Whatever is meant to sit at a known crank angle and may have moved. Type numbers from the list, or names of your own, " +
		"with commas between. Each comes into the job file as a few lines to be filled in once it is read."}

	sheetHelp = help{says: "A customer may be given the answer on a sheet of paper, with shop, customer and vehicle at its head. What you leave out " +
		"is not on it. All of it can be typed later: with the line sheet in jot, or in the job file."}
)

const crankPicture = `
   |       |
   |+-----+|   highest: the top, TDC
   ||  o  ||   piston pin       |
   |+--|--+|                    |
   |   |   |   rod: o to o      |  stroke: as far as the
       |                        |  piston travels, twice
       o       crank pin        v  the throw
      /        throw: o to O
     O         crank
`

const offsetPicture = `
    the pin off the middle      the bore off the crank
     |       |                    |       |
     |+-----+|                    |+-----+|
     ||o :  ||                    ||  o  ||
     |+-----+|                    |+-----+|
         :                            :
         O  crank                   O     crank
`

const countsPicture = `
  Turned as the engine runs, the pointer shows:

  with       350 355 | 0   5  10  rise
  against     10   5 | 0 355 350  fall
  both ways   10   5 | 0   5  10  fall, rise
                    top
`

const quadrantPicture = `
        360              180            90, quadrants
         0                0                  0
         |                |                  |
   270 --+-- 90    -90 --+-- 90        90 --+-- 90
         |                |                  |
        180          180 or -180             0
`

const stopPicture = `
        | stop |      screwed into the plug hole
     +--+  ||  +--+
     |     ||     |   the crown meets it on the way up,
     |            |   turned from one side: an angle;
     |  +------+  |   turned from the other: another one.
     |  |piston|  |   TDC is half-way between the two.
`

const dwellPicture = `
   piston
     |          seen to stand still
     |         .----------------.
     |      .'  |              |  '.
     |   .'     |              |     '.
     +----------+------+-------+---------> crank
               still  TDC    moves
`
