"""Lists 21 to 40; written as in `lists_a.py`."""
# ruff: noqa: E501 - lists typed as they stand

import lists_a

L, LISTS = lists_a.L, lists_a.LISTS

# ---- moderately messy
L(
    "arena-keynote",
    "festival",
    "A corporate gig in merged section cells; numbers formatted with a unit",
    "xlsx-openpyxl",
    """
KEYNOTE - LIGHTING||||||
Show call 07:30||||||
|||||||
FRONT TRUSS||||||
#|Offset|Fixture|Focus|Chan|Colour|Notes
1|'SR 4.5m|Profile 19|Podium|1|L202|iris
2|'SR 1m|Profile 26|Vocal|2|L202|
3|'SL 2m|Profile 19|Podium|3|L202|
||||||
BACK TRUSS||||||
#|Offset|Fixture|Focus|Chan|Colour|Notes
1|'SR 3m|LED Par|Set|11||set uplight, blue
2|'C/L|LED Par|Set|12||
3|'SL 3m|LED Par|Set|13||
""",
    """
Front Truss|1|-4.5|Profile 19|Podium|1||L202
"|2|-1|Profile 26|Vocal|2||"
"|3|2|Profile 19|Podium|3||"
Back Truss|1|-3|LED Par|Set|11||
"|2|0|"|"|12||
"|3|3|"|"|13||
""",
    merges=["A1:G1", "A4:G4", "A10:G10"],
)

L(
    "scots-panto",
    "hall",
    "A Scottish panto; 'LX bar 1', purposes in words, spare rows at the foot",
    "csv",
    """
Position,Lamp No.,Dist.,Lamp,Purpose,Circuit,Gel
LX bar 1,1,-3.0,1k Fresnel,stage right DS wash (DSR),7,152
LX bar 1,2,-1.0,1k Fresnel,centre DS wash (DSC),8,152
LX bar 1,3,1.0,1k Fresnel,centre DS wash (DSC),9,152
LX bar 1,4,3.0,1k Fresnel,stage left DS wash (DSL),10,152
LX bar 3,1,-2.0,500W flood,backcloth,20,132
LX bar 3,2,2.0,500W flood,backcloth,21,132
,,,,,,
"Dist. is metres off centre line, minus is SR",,,,,,
Spares: 2 x 650W fresnel in the cupboard,,,,,,
""",
    """
LX1|1|-3|Fresnel 1k|DSR||7|152
"|2|-1|"|DSC||8|"
"|3|1|"|DSC||9|"
"|4|3|"|DSL||10|"
LX3|1|-2|Flood 500|Backcloth||20|132
"|2|2|"|Backcloth||21|132
""",
)

L(
    "decimal-feet",
    "playhouse",
    "American summer stock: decimal feet, R and L as stage right and left, said at the top",
    "csv",
    """
SUMMER STOCK REP PLOT,,,,,,
"All dimensions feet from centerline. R = stage right, L = stage left",,,,,,
Pos,Unit,Dim,Type,Focus,Ch,Clr
1E,1,9.5 R,6in Fres,Area 6,21,R08
1E,2,3.25 R,6in Fres,Area 5,22,R08
1E,3,3.25 L,6in Fres,Area 5,23,R08
1E,4,9.5 L,6in Fres,Area 4,24,R08
2E,1,6 R,PAR64 MFL,Door,31,R26
2E,2,0,PAR64 MFL,Area 5,32,R26
""",
    """
1st Electric|1|-9.5f|6in Fresnel|Area 6|21||R08
"|2|-3.25f|"|Area 5|22||"
"|3|3.25f|"|Area 5|23||"
"|4|9.5f|"|Area 4|24||"
2nd Electric|1|-6f|PAR64 MFL|Door|31||R26
"|2|0|"|Area 5|32||"
""",
)

L(
    "inch-marks-mixed",
    "playhouse",
    "Feet and inches in several hands",
    "csv",
    '''
Position,Unit,Location,Type,Area,Channel,Color
1st Elec,1,SR 10'6,26deg ERS,Area 6,1,R60
1st Elec,2,"SR 4' 3""",26deg ERS,Area 5,2,R60
1st Elec,3,SL 0'-9,26deg ERS,Area 5,3,R60
1st Elec,4,SL 5 ft 6 in,26deg ERS,Area 4,4,R60
1st Elec,5,SL 11ft,26deg ERS,Area 4,5,R60
3rd Elec,1,"SR 7'-6 1/2""",36deg ERS,Door,6,N/C
''',
    """
1st Electric|1|-10.5f|26deg ERS|Area 6|1||R60
"|2|-4.25f|"|Area 5|2||"
"|3|.75f|"|Area 5|3||"
"|4|5.5f|"|Area 4|4||"
"|5|11f|"|Area 4|5||"
3rd Electric|1|-7.541666667f|36deg ERS|Door|6||
""",
)

L(
    "number-text-book",
    "studio",
    "A studio workbook: numbers typed as text, an extra sheet of notes",
    "xlsx-openpyxl",
    """
Lighting plot - breakfast show|||||||
Position|Lamp No|m from C/L|Type|Purpose|Ch|Cct|Gel
Bar B|'1|'-2.25|1k Fresnel|Kitchen key|'41|'B4|L204
Bar B|'2|'0.75|Softlight|Presenter fill|'42|'B8|
Bar B|'3|'3.5|1k Fresnel|Kitchen key|'43|'B12|L204
Bar C|'1|'-4|Cyc flood|Cyc|'51|'C1|L119
Bar C|'2|'0|Cyc flood|Cyc|'52|'C5|L119
Bar C|'3|'4|Cyc flood|Cyc|'53|'C9|L119
|||||||
Minus = SR of the centre line|||||||
""",
    """
Bar B|1|-2.25|Fresnel 1k|Kitchen|41|B4|L204
"|2|.75|Softlight|Presenter|42|B8|
"|3|3.5|Fresnel 1k|Kitchen|43|B12|L204
Bar C|1|-4|Cyc flood|Cyc|51|C1|L119
"|2|0|"|"|52|C5|"
"|3|4|"|"|53|C9|"
""",
    merges=["A1:H1"],
    extra=("Notes", "To do\nTwo lamps out on Bar C\nChase gel order"),
)

L(
    "side-bar-studio",
    "studio",
    "A studio with a bar up and down: places US and DS of its middle",
    "csv",
    """
Bar,Unit,Place,Lamp,Subject,Ch
Side Bar,1,2.5m DS,Fresnel 650,Presenter cross key,1
Side Bar,2,0.5m DS,Fresnel 650,Guest 1 cross key,2
Side Bar,3,1.5m US,Fresnel 650,Kitchen,3
Bar A,1,1.2m SR,Fresnel 2k,Band key,4
Bar A,2,3m SL,Fresnel 2k,Guest 2 key,5
""",
    """
Side Bar|1|-2.5|Fresnel 650|Presenter|1||
"|2|-.5|"|Guest 1|2||
"|3|1.5|"|Kitchen|3||
Bar A|1|-1.2|Fresnel 2k|Band|4||
"|2|3|"|Guest 2|5||
""",
)

L(
    "spare-and-cut",
    "opera",
    "An opera house list with a spare and a cut unit still on it",
    "csv-latin1",
    """
Bar;Nr;Dist;Type;Focus;Ch;Gel;Note
Bar 1;1;5,0m SR;PC 1.2k;DSR;11;L201;
Bar 1;2;2,5m SR;PC 1.2k;DSC;12;L201;
Bar 1;3;2,5m SL;PC 1.2k;DSC;13;L201;
Bar 1;4;5,0m SL;PC 1.2k;DSL;14;L201;
Bar 1;5;;;CUT;;;cut 3 Nov - café scene gone
Bar 2;1;1,75m SR;Profile 26;Throne;21;L147;pré-set
Bar 2;2;1,75m SL;Profile 26;Throne;22;L147;
""",
    """
Bar 1|1|-5|PC 1.2k|DSR|11||L201
"|2|-2.5|"|DSC|12||"
"|3|2.5|"|DSC|13||"
"|4|5|"|DSL|14||"
Bar 2|1|-1.75|Profile 26|Throne|21||L147
"|2|1.75|"|Throne|22||"
""",
)

# ---- messy
L(
    "scrawl-youth-theatre",
    "hall",
    "A youth theatre leader's list: positions in several spellings, words in the place cells",
    "csv",
    """
youth theatre - what goes where (draft 3!!),,,,,,
where,no,how far,what,at,ch,gel
LX 1,1,3m SR,Fresnel 1k,DSR,1,103
lx1,2,1 m SR,fresnel 1K,dsc,2,103
Lx 1,3,1.0m SL,1k Fresnel,DSC,3,103
LX1,4,300cm SL,Fresnel (1k),DSL,4,103
,,,,,,
FOH bar,1,150cm SR,Profile 36,DSC,9,none
FOH bar,2,1.5 m SL,36 profile,Lectern,10,none
,,,,,,
ask caretaker for ladder key,,,,,,
""",
    """
LX1|1|-3|Fresnel 1k|DSR|1||103
"|2|-1|"|DSC|2||"
"|3|1|"|DSC|3||"
"|4|3|"|DSL|4||"
FOH|1|-1.5|Profile 36|DSC|9||
"|2|1.5|"|Lectern|10||
""",
)

L(
    "dmx-hire-list",
    "festival",
    "A hire company's sheet: quantities, patch addresses, power columns, totals",
    "xlsx-xlsxwriter",
    """
JOB 4471 - MAIN STAGE|||||||||
Prepared by: warehouse|||||||||
|||||||||
Position|Unit|Qty|Fixture|Focus|Ch|Universe|Address|Watts|Amps
Mid Truss|1|1|PAR64 CP62|Guitar|1|1|1|1000|=I5/230=>4.35
Mid Truss|2|1|PAR64 CP62|Drums|2|1|2|1000|=I6/230=>4.35
Mid Truss|3|1|PAR64 CP62|Bass|3|1|3|1000|=I7/230=>4.35
Front Truss|1|1|Profile 26|Vocal|4|1|4|750|=I8/230=>3.26
Front Truss|2|1|Profile 26|Horns|5|1|5|750|=I9/230=>3.26
Floor SL|1|1|LED Par|Drums|6|2|1|180|=I10/230=>0.78
Floor SR|1|1|LED Par|Drums|7|2|11|180|=I11/230=>0.78
TOTAL||=SUM(C5:C11)=>7||||||=SUM(I5:I11)=>4860|=SUM(J5:J11)=>21.13
""",
    """
Mid Truss|1||PAR64 CP62|Guitar|1|?|
"|2||"|Drums|2|?|
"|3||"|Bass|3|?|
Front Truss|1||Profile 26|Vocal|4|?|
"|2||"|Horns|5|?|
Floor SL|1||LED Par|Drums|6|?|
Floor SR|1||LED Par|Drums|7|?|
""",
)

L(
    "sl-sr-columns",
    "hall",
    "An Irish parish hall: one column for SR metres, one for SL metres",
    "xlsx-openpyxl",
    """
Parish variety night - lights|||||||
|||||||
Bar|No.|SR (m)|SL (m)|Lantern|Area|Ch.|Gel no.
LX1|1|3.5||PC 1k|DSR|1|'154
|2|1.25||PC 1k|DSC|2|'154
|3||1.25|PC 1k|DSC|3|'154
|4||3.5|PC 1k|DSL|4|'154
LX2|1|2||Par 64|USR|5|'126
|2||2|Par 64|USL|6|'126
""",
    """
LX1|1|-3.5|PC 1k|DSR|1||154
"|2|-1.25|"|DSC|2||"
"|3|1.25|"|DSC|3||"
"|4|3.5|"|DSL|4||"
LX2|1|-2|Par 64|USR|5||126
"|2|2|"|USL|6||126
""",
    merges=["A4:A7", "A8:A9"],
)

L(
    "from-the-sr-end",
    "opera",
    "A touring list measured from the SR end of the bar (the bars run 8 m each way)",
    "csv",
    """
TOUR HANG - all distances from the SR END of the bar (bars 16m),,,,,
Bar,Unit,From SR end,Lantern,Focus,Colour
Bar 2,1,3.0m,Fresnel 2k,CSR,L201
Bar 2,2,7.5m,Fresnel 2k,CS,L201
Bar 2,3,13.0m,Fresnel 2k,CSL,L201
Bar 3,1,4.0m,PC 1.2k,USR,L200
Bar 3,2,8.0m,PC 1.2k,USC,L200
Bar 3,3,12.0m,PC 1.2k,USL,L200
""",
    """
Bar 2|1|-5|Fresnel 2k|CSR|||L201
"|2|-.5|"|CS|||"
"|3|5|"|CSL|||"
Bar 3|1|-4|PC 1.2k|USR|||L200
"|2|0|"|USC|||"
"|3|4|"|USL|||"
""",
)

L(
    "shop-order-mix",
    "playhouse",
    "American black-box student: sections, 'Inst' with wattage, booms in feet and inches, blank numbers of channel",
    "xlsx-openpyxl",
    """
SENIOR THESIS|||||||
drawn 2/14|Scale 1/2" = 1'||||||
|||||||
Unit|Height/Dist|Inst.|Purpose|Dim|Chan|Color|Notes
SL BOOM|||||||
1|12'|36deg ERS 575W|Area 2 side|101|51|R60|
2|8'-6"|36deg ERS 575W|Area 5 side|102|52|R60|
3|3'|50deg ERS 575W|Area 5 shin|103|53|N/C|watch the flat!
SR BOOM|||||||
1|12'|36deg ERS 575W|Area 2 side|111|61|R60|
2|8'-6"|36deg ERS 575W|Area 5 side|112|62|R60|
3|3'|50deg ERS 575W|Area 5 shin|113|63|N/C|
|||||||
6 units total|||||||
""",
    """
SL Boom|1|12f|36deg ERS|Area 2|51|?|R60
"|2|8.5f|"|Area 5|52|?|"
"|3|3f|50deg ERS|Area 5|53|?|
SR Boom|1|12f|36deg ERS|Area 2|61|?|R60
"|2|8.5f|"|Area 5|62|?|"
"|3|3f|50deg ERS|Area 5|63|?|
""",
    merges=["A1:H1", "A5:H5", "A9:H9"],
)

L(
    "two-colour-columns",
    "opera",
    "A receiving house: two gel columns (the second not used here) and a frost tick",
    "csv",
    """
Pos'n,Unit,At,Type,Focus,Chan,Gel 1,Gel 2,Frost?
Advance,1,6.0m SR,Profile 26,DSR,1,L201,,y
Advance,2,2.0m SR,Profile 26,DSC,2,L201,,y
Advance,3,2.0m SL,Profile 26,DSC,3,L201,,y
Advance,4,6.0m SL,Profile 26,DSL,4,L201,,y
Bar 3,1,3.0m SR,Par 64 CP62,USR,5,L195,,
Bar 3,2,3.0m SL,Par 64 CP62,USL,6,L195,,
""",
    """
Advance|1|-6|Profile 26|DSR|1||L201
"|2|-2|"|DSC|2||"
"|3|2|"|DSC|3||"
"|4|6|"|DSL|4||"
Bar 3|1|-3|Par 64 CP62|USR|5||L195
"|2|3|"|USL|6||L195
""",
)

L(
    "prefixed-numbers",
    "playhouse",
    "Canadian regional: the unit number carries its position (1E-3); no position column",
    "csv",
    """
Unit,Instrument,From Centre,Purpose,Chan,Colour
1E-1,6in Fresnel,9'-0 SR,Area 6,1,R16
1E-2,6in Fresnel,0'-0,Area 5,2,R16
1E-3,6in Fresnel,9'-0 SL,Area 4,3,R16
2E-1,8in Fresnel,7'-0 SR,Door,4,R54
2E-2,36deg ERS,2'-6 SL,Sofa,5,R33
3E-1,Cyc light,8'-0 SR,Cyc,6,R80
3E-2,Cyc light,8'-0 SL,Cyc,7,R80
""",
    """
1st Electric|1|-9f|6in Fresnel|Area 6|1||R16
"|2|0|"|Area 5|2||"
"|3|9f|"|Area 4|3||"
2nd Electric|1|-7f|8in Fresnel|Door|4||R54
"|2|2.5f|36deg ERS|Sofa|5||R33
3rd Electric|1|-8f|Cyc light|Cyc|6||R80
"|2|8f|"|Cyc|7||"
""",
)

L(
    "ods-church-merged",
    "hall",
    "An Australian church's ODS with merged bar cells, a banner and a totals row",
    "ods",
    """
Easter pageant lights|||||||
updated Good Friday eve|||||||
|||||||
BAR|LIGHT #|DISTANCE|TYPE|POINTED AT|CHANNEL|COLOUR|NOTES
FOH|1|2.8m SR|Profile 26|DSR|1|open|
|2|0.3m SL|Profile 26|DSC|2|open|
|3|2.8m SL|Profile 26|Lectern|3|open|for readings
LX2|1|2m SR|Fresnel 650|USR|7|L147|sunrise
|2|2m SL|Fresnel 650|USL|8|L147|sunrise
TOTAL|5||||||
""",
    """
FOH|1|-2.8|Profile 26|DSR|1||
"|2|.3|"|DSC|2||
"|3|2.8|"|Lectern|3||
LX2|1|-2|Fresnel 650|USR|7||L147
"|2|2|"|USL|8||L147
""",
    merges=["A5:A7", "A8:A9"],
)

L(
    "wide-shorthand",
    "festival",
    "A touring tech's shorthand: FT, MT, BT explained at the top, focus in abbreviations",
    "tsv",
    """
KEY: FT = Front Truss / MT = Mid Truss / BT = Back Truss|||||
Pos|#|Dist|Lamp|Foc|Ch
FT|1|SR 3m|Profile 19|Guitar|1
FT|2|CL|Profile 19|Vocal|2
FT|3|SL 3m|Profile 19|Bass|3
MT|1|SR 4m|CP62 Par 64|Horns|4
MT|2|SL 4m|CP62 Par 64|Keys|5
BT|1|SR 1m|CP60 Par 64|Drums|6
BT|2|SL 1m|CP60 Par 64|Drums|7
""",
    """
Front Truss|1|-3|Profile 19|Guitar|1||
"|2|0|"|Vocal|2||
"|3|3|"|Bass|3||
Mid Truss|1|-4|PAR64 CP62|Horns|4||
"|2|4|"|Keys|5||
Back Truss|1|-1|PAR64 CP60|Drums|6||
"|2|1|"|Drums|7||
""",
)

L(
    "floor-and-sides",
    "opera",
    "A contemporary dance list: floor lamps, booms and a bar in one column of places, messy notes",
    "csv-utf16",
    """
Contemporary double bill;;;;;;
LX: hang and focus;;;;;;last touched 9.11.
;;;;;;
Position;Unit;Height / offset;Unit type;Focus;Ch;Gel
Floor SL;1;;Par 64 CP62;USC;71;L201
Floor SR;1;;Par 64 CP62;USC;72;L201
SL Boom 2;1;0.6 m;Profile 50;CS;73;L202
SL Boom 2;2;2.4 m;Profile 36;CSR;74;L202
SR Boom 2;1;0.6 m;Profile 50;CS;75;L202
SR Boom 2;2;2.4 m;Profile 36;CSL;76;L202
Bar 3;1;0.5 m SL;Profile 26;Throne;77;-
""",
    """
Floor SL|1||Par 64 CP62|USC|71||L201
Floor SR|1||"|USC|72||"
SL Boom 2|1|.6|Profile 50|CS|73||L202
"|2|2.4|Profile 36|CSR|74||"
SR Boom 2|1|.6|Profile 50|CS|75||"
"|2|2.4|Profile 36|CSL|76||"
Bar 3|1|.5|Profile 26|Throne|77||
""",
)

# ---- must be asked about
L(
    "no-side-said",
    "hall",
    "A society's list in which one row says no side",
    "csv",
    """
Bar,No,From centre,Lantern,Area,Ch,Gel
LX1,1,3m SR,Fresnel 1k,DSR,1,L103
LX1,2,1m SR,Fresnel 1k,DSC,2,L103
LX1,3,1m,Fresnel 1k,DSC,3,L103
LX1,4,3m SL,Fresnel 1k,DSL,4,L103
LX2,1,2m SR,Fresnel 650,USR,5,L201
""",
    """
LX1|1|-3|Fresnel 1k|DSR|1||L103
"|2|-1|"|DSC|2||"
"|3|?|"|DSC|3||"
"|4|3|"|DSL|4||"
LX2|1|-2|Fresnel 650|USR|5||L201
""",
    asked="LX1 3: the list says 1m from centre and no side (SL is likely, but it is not said)",
)

L(
    "balcony-nobody-knows",
    "playhouse",
    "A list that names a target the scene has not",
    "csv",
    """
Position,Unit,Location,Type,Purpose,Channel,Color
FOH Cove,1,"10'-0"" SR",26deg ERS,Area 3,1,R02
FOH Cove,2,"1'-0"" SR",26deg ERS,Area 2,2,R02
FOH Cove,3,"10'-0"" SL",26deg ERS,Area 1,3,R02
FOH Cove,4,"12'-0"" SL",19deg ERS,Balcony,4,R60
2nd Electric,1,"3'-0"" SL",36deg ERS,Sofa,5,N/C
""",
    """
FOH Cove|1|-10f|26deg ERS|Area 3|1||R02
"|2|-1f|"|Area 2|2||"
"|3|10f|"|Area 1|3||"
"|4|12f|19deg ERS|?|4||R60
2nd Electric|1|3f|36deg ERS|Sofa|5||
""",
    asked="FOH Cove 4: no target Balcony in the scene",
)

L(
    "same-number-again",
    "opera",
    "A hurried list where a bar has unit 3 twice",
    "xlsx-openpyxl",
    """
Rep change - Bar 1||||||
Position|Unit|Place|Lantern|Focus|Ch|Gel
Bar 1|1|'4m SR|Fresnel 2k|DSR|1|L201
Bar 1|2|'1.5m SR|Fresnel 2k|DSC|2|L201
Bar 1|3|'1.5m SL|Fresnel 2k|DSC|3|L201
Bar 1|3|'4m SL|Fresnel 2k|DSL|4|L201
Bar 1|5|'5.5m SL|Profile 26|Throne|5|
""",
    """
Bar 1|1|-4|Fresnel 2k|DSR|1||L201
"|2|-1.5|"|DSC|2||"
"|3|1.5|"|DSC|3||"
"|?|4|"|DSL|4||"
"|5|5.5|Profile 26|Throne|5||
""",
    asked="Bar 1: the number 3 comes twice (the second is likely 4)",
)
