#include "stakewright/job/job.hpp"

namespace stakewright::job {
namespace {

constexpr const char* kHead =
    R"toml(# A job for stakewright.  It runs as it stands: change what differs on your site.
# A line that begins with # is a remark; take the # away to use what stands behind it.
#
# Lengths: "16ft", "12' 4-5/16\"", "12-4-5/16" (feet-inches-fraction), "148 5/16in",
#          "3.766m", "3766mm".  A bare number is in the units below (feet-inches: feet).
#
# Before the first stake: have buried services located.  Keep a steel tape away from power
# lines, keep out of a dig that nobody has shored, and check the tape against a known length.
# Sizes, depth, frost, uplift and fixings follow the local code and a licensed designer; this
# file holds none of them.

title = "My shelter"
units = "feet-inches"          # "feet-inches", "mm" or "m"

[plan]
sides = 6                      # 3 to 48
across_flats = "16ft"          # exactly one size; the others are:
# side = "9ft"
# corner_radius = "9ft"        # center to corner
# flat_radius = "8ft"          # center to the middle of a side
# across_corners = "18ft"      # even number of sides
# flat_to_corner = "17ft"      # odd number of sides
# perimeter = "54ft"
# floor_area = "220 sq ft"
line = "post centers"          # what the size is measured to, in your words

[site]
center = ["0", "0"]            # the center pin O: right, forward
facing = 0.0                   # degrees clockwise from forward to the middle of side A-B
# hold = ["A", "B"]            # stakes that must not move
# batter_setback = "4ft"       # corner to batter board along the string
)toml";

constexpr const char* kSurroundings = R"toml(
# [[site.pin]]                 # a point that is known already
# name = "P1"
# at = ["-12ft", "-10ft"]
# [[site.pin]]
# name = "P2"
# at = ["12ft", "-10ft"]

# [[site.keep_clear]]          # an outline no line of the job may cross
# name = "boundary setback"
# keep = "inside"              # "inside" or "outside"
# of = [["-20ft", "-20ft"], ["20ft", "-20ft"], ["20ft", "20ft"], ["-20ft", "20ft"]]

[lines]                        # outward from the plan line, named as you like
plate = "2-3/4in"              # where the rafters bear; the roof is worked from it
slab_edge = "8in"
dig = "2ft"

[tolerance]
corner = "1/4in"               # how far a corner may be from its true place
level = "1/8in"                # how far a corner may be from level
part = "1/16in"                # what a saw cut and a joint forgive
confidence = 0.95              # how sure a verdict must be, 0.5 to 0.9999

[staking]                      # what usually happens on a site like this
spread = "1/8in"               # standard deviation of a stake's place, when all went well
misread = 0.02                 # chance that any one reading is a slip
misplaced = 0.05               # chance that any one stake stands wrong
)toml";

constexpr const char* kInstruments = R"toml(
# [levels]                     # with rod readings: what they are judged against
# bench_mark = "BM"            # a name rods are read on: a pin, or any other mark
# height = "100ft"             # of it
# footings = "100ft 4in"       # height their tops are wanted at; without it, their own mean

# Built in: "steel", "fibreglass", the same by class ("steel I", "fibreglass II"), "laser",
# "laser in sun", "level", "rotating laser", "circle", "transit", "total station".
# Describe a tape of your own like this:
# [[instrument]]
# name = "blue tape"
# kind = "tape"                # "tape", "laser", "level" or "circle"
# constant = "1/16in"          # standard deviation of a reading that does not grow ...
# per_length = 0.0001          # ... and that grows with length
# centering = "1/16in"          # standard deviation of holding over a stake, each end
# scale = 0.0002               # standard deviation of an unknown scale error
# zero = "1/32in"              # standard deviation of an unknown zero error (worn hook)
# nominal = "100ft"            # checked against a known length: marked ...
# actual = "99.98ft"           # ... and measured
# expansion = "6.45e-6/F"      # with a temperature column in the readings
# standard_temperature = "68F"
# standard_pull = "12lbf"      # with a pull column in the readings
# section = "0.0075in2"
# modulus = "29e6psi"
# weight = "0.028lbf/ft"       # a tape held at its ends only sags
# [[instrument]]
# name = "old transit"
# kind = "circle"              # for angles turned at a stake
# angle = "0-02-00"            # standard deviation of one turned angle, degrees-minutes-seconds
# centering = "1/16in"          # over its stake, and of each target over its own
)toml";

constexpr const char* kRoof = R"toml(
[roof]
pitch = "8/12"                 # rise over run of the commons; also "33.7deg" or "0.667"
overhang = "18in"              # level, plate line to the face the fascia sits on
rafter = "1-1/2in"             # thickness
rafter_depth = "5-1/2in"
hip = "2-1/2in"                # thickness
spacing = "16in"               # jacks, on center, from the common outwards
hub = "0"                      # across flats of a king post or hub; 0: the rafters meet
fascia = "3/4in"               # thickness
tail = "square"                # "square" or "plumb"
eave = "level"                 # "level" or "even": keep the fascia level, or the overhang even
apex_over = "placed center"    # "placed center", "pin" or "even hips"
# seat = "3in"                 # level bearing of a rafter; 0: 3-1/2 in, or a third of the depth
shortest_jack = "6in"          # a jack cut shorter than this is left out
beam = "3-1/2in"               # thickness of the beams on the plate line
post = "5-1/2in"               # thickness of the posts under its corners
# post_height = "8ft"          # underside of the beams above the highest footing
course = "4ft"                 # width of a sheathing panel, up the slope
# base_play = "1/2in"          # how far a post may stand off its footing's center

[stock]                        # what the yard sells, for the cut sheet
lengths = ["8ft", "10ft", "12ft", "14ft", "16ft", "20ft"]
kerf = "1/8in"                 # lost at each cut
)toml";

constexpr const char* kPour = R"toml(
# [pour]                       # concrete by the sizes of your drawings; layout adds it up
# pier_diameter = "12in"       # one pier a corner
# pier_depth = "4ft"           # of concrete, top to pad
# piers = 7                    # when there are more or fewer than corners
# pad_width = "24in"           # square pad under each pier
# pad_thickness = "10in"
# slab_thickness = "4in"
# slab_line = "slab_edge"      # the line of [lines] it ends at
# edge_width = "12in"          # thickened edge along the inside of that line ...
# edge_depth = "8in"           # ... and how far below the slab it goes
# waste = 0.10                 # ordered on top
# bag_yield = "0.6 cu ft"      # as printed on the bag; counts bags
)toml";

}  // namespace

std::string starter_job() {
  return std::string(kHead) + kSurroundings + kInstruments + kRoof + kPour;
}

}  // namespace stakewright::job
