"""Lists 1 to 20. Text formats are written as they stand; in workbooks and tabbed text `|` parts the cells.

Expected: position | number | at | kind | target | channel | circuit | colour; `"` = as the line above, nothing = the
list has none (place: left to spacing), `?` = not compared; `f` after a place: feet.
"""
# ruff: noqa: E501, N802, C408 - lists typed as they stand

LISTS = []


def L(name, house, what, form, text, expect, asked=None, **opts):
    LISTS.append(
        dict(
            name=name,
            house=house,
            what=what,
            form=form,
            text=text.strip("\n") + "\n",
            expect=expect,
            asked=asked,
            opts=opts,
        )
    )


# ---- plain and tidy
L(
    "juniors-spring",
    "hall",
    "A primary teacher's list for the spring show, tidy",
    "csv",
    """
Position,Unit,From centre,Lantern,Focus,Channel,Gel
FOH,1,3.0 m SR,Profile 26,DSR,1,L103
FOH,2,0.5 m SR,Profile 26,DSC,2,L103
FOH,3,0.5 m SL,Profile 26,DSC,3,L103
FOH,4,3.0 m SL,Profile 26,DSL,4,L103
LX1,1,2.0 m SR,Fresnel 650,USR,11,L201
LX1,2,0,Fresnel 650,USC,12,L201
LX1,3,2.0 m SL,Fresnel 650,USL,13,L201
""",
    """
FOH|1|-3|Profile 26|DSR|1||L103
"|2|-.5|"|DSC|2||"
"|3|.5|"|DSC|3||"
"|4|3|"|DSL|4||"
LX1|1|-2|Fresnel 650|USR|11||L201
"|2|0|"|USC|12||"
"|3|2|"|USL|13||"
""",
)

L(
    "players-autumn",
    "hall",
    "An amateur society's list; semicolons from a machine set to a continental locale, decimal commas",
    "csv",
    """
Autumn comedy - hang list;;;;;;;
Version 2 - 14/10/2025;;;;;;;
;;;;;;;
Bar;No.;Dist. from CL (m, + = SL);Type;Focus;Ch;Cct;Colour
LX1;1;-3,2;Fresnel 1k;DSR;21;5;L152
LX1;2;-1,1;PC 1k;DSC;22;6;L152
LX1;3;1,1;PC 1k;DSC;23;7;L152
LX1;4;3,2;Fresnel 1k;DSL;24;8;L152
LX2;1;-2,4;Fresnel 650;USR;31;12;L117
LX2;2;0;Fresnel 650;USC;32;13;L117
LX2;3;2,4;Fresnel 650;USL;33;14;L117
""",
    """
LX1|1|-3.2|Fresnel 1k|DSR|21|5|L152
"|2|-1.1|PC 1k|DSC|22|6|"
"|3|1.1|PC 1k|DSC|23|7|"
"|4|3.2|Fresnel 1k|DSL|24|8|"
LX2|1|-2.4|Fresnel 650|USR|31|12|L117
"|2|0|"|USC|32|13|"
"|3|2.4|"|USL|33|14|"
""",
)

L(
    "drawing-room-rep",
    "playhouse",
    "American regional: an instrument schedule kept with care",
    "csv",
    """
Position,Unit #,Location,Instrument Type,Purpose,Channel,Circuit,Color
FOH Cove,1,"12'-0"" SR",19deg ERS,Area 3 warm,3,C4,R02
FOH Cove,2,"4'-6"" SR",19deg ERS,Area 2 warm,2,C7,R02
FOH Cove,3,"4'-6"" SL",19deg ERS,Area 2 cool,12,C10,R60
FOH Cove,4,"12'-0"" SL",19deg ERS,Area 1 warm,1,C13,R02
1st Electric,1,"10'-3"" SR",6in Fresnel,Area 6 warm,6,E3,R02
1st Electric,2,"1'-0"" SR",6in Fresnel,Area 5 warm,5,E8,R02
1st Electric,3,"9'-9"" SL",6in Fresnel,Area 4 warm,4,E15,R02
""",
    """
FOH Cove|1|-12f|19deg ERS|Area 3|3|C4|R02
"|2|-4.5f|"|Area 2|2|C7|R02
"|3|4.5f|"|Area 2|12|C10|R60
"|4|12f|"|Area 1|1|C13|R02
1st Electric|1|-10.25f|6in Fresnel|Area 6|6|E3|R02
"|2|-1f|"|Area 5|5|E8|"
"|3|9.75f|"|Area 4|4|E15|"
""",
)

L(
    "triple-bill",
    "opera",
    "A touring dance company's list: booms by height, tidy workbook",
    "xlsx-openpyxl",
    """
Triple bill: touring hang
Position|Unit|Height / dist (m)|Fixture|Focus|Chan|Colour
SL Boom 1|1|0.5|Profile 26|CS|101|L201
SL Boom 1|2|1.8|Profile 36|CS|102|L202
SL Boom 1|3|3.2|Par 64 CP62|CSR|103|L161
SR Boom 1|1|0.5|Profile 26|CS|111|L201
SR Boom 1|2|1.8|Profile 36|CS|112|L202
SR Boom 1|3|3.2|Par 64 CP62|CSL|113|L161
SL Boom 2|1|0.5|Profile 26|USC|121|L201
SR Boom 2|1|0.5|Profile 26|USC|131|L201
""",
    """
SL Boom 1|1|.5|Profile 26|CS|101||L201
"|2|1.8|Profile 36|CS|102||L202
"|3|3.2|Par 64 CP62|CSR|103||L161
SR Boom 1|1|.5|Profile 26|CS|111||L201
"|2|1.8|Profile 36|CS|112||L202
"|3|3.2|Par 64 CP62|CSL|113||L161
SL Boom 2|1|.5|Profile 26|USC|121||L201
SR Boom 2|1|.5|Profile 26|USC|131||L201
""",
    merges=["A1:G1"],
    formats={"C": '0.0 "m"'},
)

L(
    "carol-service",
    "hall",
    "A church verger's list, accents in it, Latin-1",
    "csv-latin1",
    """
Carol service – lights,,,,,
Bar,Lamp no,Where,What,Points at,Ch
FOH,1,2.5m SL,Profile 26°,Lectern,1
FOH,2,1m SL,Profile 36°,Choir centre (DSC),2
FOH,3,1m SR,Profile 36°,Choir centre (DSC),3
LX1,1,2m SR,Fresnel 650W,Crèche (USR),4
LX1,2,2m SL,Fresnel 650W,USL,5
""".replace("–", "-"),
    """
FOH|1|2.5|Profile 26|Lectern|1||
"|2|1|Profile 36|DSC|2||
"|3|-1|Profile 36|DSC|3||
LX1|1|-2|Fresnel 650|USR|4||
"|2|2|"|USL|5||
""",
)

L(
    "studio-two-chat",
    "studio",
    "A TV studio lighting director's rig sheet with stands",
    "xlsx-xlsxwriter",
    """
STUDIO 2 - CHAT||||||
Bar|Lamp|Offset (m)|Luminaire|Duty|Circuit|Filter
Bar A|1|'1.8 SR|Fresnel 1k|Presenter key|A3|1/4 CTB
Bar A|2|'0.6 SL|Softlight|Presenter fill|A7|
Bar A|3|'2.9 SL|Fresnel 1k|Guest 1 key|A10|1/4 CTB
Bar C|1|'0.9 SR|Fresnel 650|Presenter back|C5|L218
Bar C|2|'1.2 SL|Fresnel 650|Guest 1 back|C8|L218
Bar C|3|'2.4 SL|Fresnel 650|Guest 2 back|C9|L218
Floor 1|1||Softlight|Band fill|F1|
""",
    """
Bar A|1|-1.8|Fresnel 1k|Presenter||A3|1/4 CTB
"|2|.6|Softlight|Presenter||A7|
"|3|2.9|Fresnel 1k|Guest 1||A10|1/4 CTB
Bar C|1|-.9|Fresnel 650|Presenter||C5|L218
"|2|1.2|"|Guest 1||C8|"
"|3|2.4|"|Guest 2||C9|"
Floor 1|1||Softlight|Band||F1|
""",
)

L(
    "main-stage-sat",
    "festival",
    "A festival house rig, LED pars by truss, no places (even spacing)",
    "csv-bom",
    """
Truss,Fixture #,Fixture,Focus,Channel,DMX
Front Truss,1,LED Par,Guitar,1,1/001
Front Truss,2,LED Par,Vocal,2,1/017
Front Truss,3,LED Par,Vocal,3,1/033
Front Truss,4,LED Par,Bass,4,1/049
Back Truss,1,Blinder,Vocal,11,2/001
Back Truss,2,LED Par,Drums,12,2/005
Back Truss,3,LED Par,Keys,13,2/021
""",
    """
Front Truss|1||LED Par|Guitar|1|?|
"|2||"|Vocal|2|?|
"|3||"|Vocal|3|?|
"|4||"|Bass|4|?|
Back Truss|1||Blinder|Vocal|11|?|
"|2||LED Par|Drums|12|?|
"|3||"|Keys|13|?|
""",
)

L(
    "class-exercise",
    "playhouse",
    "A college class hand-out, inches in the place column, tab-separated",
    "tsv",
    """
Position|Unit|Distance from center (in)|Side|Type|Area|Ch|Gel
1st Electric|1|120|SR|6in Fresnel|Area 6|1|R33
1st Electric|2|30|SR|6in Fresnel|Area 5|2|R33
1st Electric|3|30|SL|6in Fresnel|Area 5|3|R33
1st Electric|4|120|SL|6in Fresnel|Area 4|4|R33
2nd Electric|1|96|SR|8in Fresnel|Door|5|R80
2nd Electric|2|0||Cyc light|Cyc|6|R80
""",
    """
1st Electric|1|-10f|6in Fresnel|Area 6|1||R33
"|2|-2.5f|"|Area 5|2||"
"|3|2.5f|"|Area 5|3||"
"|4|10f|"|Area 4|4||"
2nd Electric|1|-8f|8in Fresnel|Door|5||R80
"|2|0|Cyc light|Cyc|6||R80
""",
)

L(
    "awards-dinner",
    "festival",
    "A corporate gig: a prep sheet, millimetres",
    "xlsx-openpyxl",
    """
Client dinner & awards|||||||
Rev B|'11 Nov|||||
Position|ID|mm from CL (SR negative)|Fixture|Focus|Ch|Col|Notes
Front Truss|1|-2500|Profile 26|Podium|1|L203|shutter off screen
Front Truss|2|-500|Profile 26|Vocal|2|L203|
Front Truss|3|1500|Profile 19|Podium|3|L203|top hat
Front Truss|4|3750|Profile 19|Podium|4|L203|
Mid Truss|1|-2000|LED Par|Set|21||blue look
Mid Truss|2|2000|LED Par|Set|22||blue look
""",
    """
Front Truss|1|-2.5|Profile 26|Podium|1||L203
"|2|-.5|Profile 26|Vocal|2||"
"|3|1.5|Profile 19|Podium|3||"
"|4|3.75|Profile 19|Podium|4||"
Mid Truss|1|-2|LED Par|Set|21||
"|2|2|"|Set|22||
""",
    formats={"C": "#,##0", "F": "000"},
)

L(
    "one-act-festival",
    "hall",
    "Irish one-act drama festival: the shared rig",
    "csv",
    """
Bar,Lantern No,Position on bar,Lantern,Area,Channel,Dimmer,Gel,Remarks
LX1,1,SR 3.5m,Fresnel 1k,DSR,1,1,L103,
LX1,2,SR 1.2m,Fresnel 1k,DSC,2,2,L103,
LX1,3,SL 1.2m,Fresnel 1k,DSC,3,3,L103,
LX1,4,SL 3.5m,Fresnel 1k,DSL,4,4,L103,
LX2,1,SR 2.8m,Par 64,USR,5,5,L106,festival special - do not move
LX2,2,centre,Par 64,USC,6,6,L119,
LX2,3,SL 2.8m,Par 64,USL,7,7,L106,
""",
    """
LX1|1|-3.5|Fresnel 1k|DSR|1|?|L103
"|2|-1.2|"|DSC|2|?|"
"|3|1.2|"|DSC|3|?|"
"|4|3.5|"|DSL|4|?|"
LX2|1|-2.8|Par 64|USR|5|?|L106
"|2|0|"|USC|6|?|L119
"|3|2.8|"|USL|7|?|L106
""",
)

L(
    "bohemian-act-two",
    "opera",
    "An opera house list, one ODS sheet",
    "ods",
    """
Position|Nr|Place (m)|Lantern|Focus|Channel|Circuit|Colour
Advance|1|5.2 SR|Profile 19|DSR|1|201|L202
Advance|2|1.6 SR|Profile 19|DSC|2|205|L202
Advance|3|1.6 SL|Profile 19|DSC|3|209|L202
Advance|4|5.2 SL|Profile 19|DSL|4|213|L202
Bar 1|1|3.75 SR|Fresnel 2k|CSR|11|105|L201
Bar 1|2|0.25 SL|Fresnel 2k|CS|12|108|L201
Bar 1|3|4.1 SL|Fresnel 2k|Throne|13|112|L205
""",
    """
Advance|1|-5.2|Profile 19|DSR|1|201|L202
"|2|-1.6|"|DSC|2|205|"
"|3|1.6|"|DSC|3|209|"
"|4|5.2|"|DSL|4|213|"
Bar 1|1|-3.75|Fresnel 2k|CSR|11|105|L201
"|2|.25|"|CS|12|108|L201
"|3|4.1|"|Throne|13|112|L205
""",
)

L(
    "yarra-fringe",
    "hall",
    "Australian fringe venue, UTF-16 out of a spreadsheet",
    "tsv-utf16",
    """
Bar|Unit|Loc|Lantern|Purpose|Chan|Colour
FOH|1|SR 2.4|Profile 36|Front DSR|1|L204
FOH|2|SR 0.4|Profile 36|Front DSC|2|L204
FOH|3|SL 0.4|Profile 36|Front DSC|3|L204
FOH|4|SL 2.4|Profile 36|Front DSL|4|L204
LX3|1|SR 1.5|Flood 500|Backcloth|9|L119
LX3|2|SL 1.5|Flood 500|Backcloth|10|L119
""",
    """
FOH|1|-2.4|Profile 36|DSR|1||L204
"|2|-.4|"|DSC|2||"
"|3|.4|"|DSC|3||"
"|4|2.4|"|DSL|4||"
LX3|1|-1.5|Flood 500|Backcloth|9||L119
"|2|1.5|"|Backcloth|10||L119
""",
)

# ---- moderately messy
L(
    "panto-dame",
    "hall",
    "Panto: section rows name the bar, blank rows between, totals",
    "csv",
    """
PANTO 2025 - LX HANG,,,,,,
"as of Tues tech, v4",,,,,,
,,,,,,
No,Distance,Lantern,Focus,Chan,Gel,Notes
FOH,,,,,,
1,3m SR,26 profile,DSR,1,L205,
2,1m SR,26 profile,DSC,2,L205,
3,1m SL,26 profile,DSC,3,L205,
4,3m SL,26 profile,DSL,4,L205,
,,,,,,
LX 1,,,,,,
1,2.5m SR,1k fresnel,USR,11,L126,panto pink!
2,0,1k fresnel,USC,12,L126,
3,2.5m SL,1k fresnel,USL,13,L126,
,,,,,,
Total,7 lanterns,,,,,
""",
    """
FOH|1|-3|Profile 26|DSR|1||L205
"|2|-1|"|DSC|2||"
"|3|1|"|DSC|3||"
"|4|3|"|DSL|4||"
LX1|1|-2.5|Fresnel 1k|USR|11||L126
"|2|0|"|USC|12||"
"|3|2.5|"|USL|13||"
""",
)

L(
    "winter-revels",
    "playhouse",
    "American: merged position cells, feet and inches as text, a date cell",
    "xlsx-openpyxl",
    """
Winter Revels|||||||
Hang schedule, rev. 3||@2025-11-04|||||
Pos.|U#|Dist. from C|Inst|Purpose|Ch|Ckt|Color
FOH Cove|1|8' 6" SR|26° ERS|A3 front|1|12|R05
|2|2' SR|26° ERS|A2 front|2|14|R05
|3|6' 3" SL|26° ERS|A1 front|3|17|R05
1st Electric|1|11' SR|6" Fresnel|A6 top|11|31|R68
|2|0' 6" SR|6" Fresnel|A5 top|12|35|R68
|3|10' 6" SL|6" Fresnel|A4 top|13|39|R68
""",
    """
FOH Cove|1|-8.5f|26deg ERS|Area 3|1|12|R05
"|2|-2f|"|Area 2|2|14|"
"|3|6.25f|"|Area 1|3|17|"
1st Electric|1|-11f|6in Fresnel|Area 6|11|31|R68
"|2|-.5f|"|Area 5|12|35|"
"|3|10.5f|"|Area 4|13|39|"
""",
    merges=["A1:H1", "A4:A6", "A7:A9"],
)

L(
    "two-pages-printed",
    "playhouse",
    "A Canadian list printed on two pages: the heading comes again",
    "csv",
    """
Position,Unit,Place,Type,Focus,Channel,Colour
2nd Electric,1,12ft SR,36 deg ERS,Area 6,31,R54
2nd Electric,2,5ft SR,36 deg ERS,Door,32,N/C
2nd Electric,3,5ft SL,36 deg ERS,Sofa,33,R54
Page 1 of 2,,,,,,
Position,Unit,Place,Type,Focus,Channel,Colour
3rd Electric,1,9ft SR,Cyc light,Cyc,41,R80
3rd Electric,2,CL,Cyc light,Cyc,42,R80
3rd Electric,3,9ft SL,Cyc light,Cyc,43,R80
Page 2 of 2,,,,,,
""",
    """
2nd Electric|1|-12f|36deg ERS|Area 6|31||R54
"|2|-5f|"|Door|32||
"|3|5f|"|Sofa|33||R54
3rd Electric|1|-9f|Cyc light|Cyc|41||R80
"|2|0|"|Cyc|42||"
"|3|9f|"|Cyc|43||"
""",
)

L(
    "ranges-parcans",
    "festival",
    "A band's list with ranges of units",
    "csv",
    """
Truss,Units,Type,Focus,Ch,Colour
Front Truss,1-3,PAR64 CP62,Vocal,1,L103
Front Truss,4,Profile 19,Guitar,2,O/W
Front Truss,5,Profile 19,Bass,3,O/W
Back Truss,1-4,PAR64 CP60,Drums,4,L106
Back Truss,5,PAR64 CP61,Keys,5,L119
""",
    """
Front Truss|1||PAR64 CP62|Vocal|1||L103
"|2||"|"|1||"
"|3||"|"|1||"
"|4||Profile 19|Guitar|2||
"|5||"|Bass|3||
Back Truss|1||PAR64 CP60|Drums|4||L106
"|2||"|"|4||"
"|3||"|"|4||"
"|4||"|"|4||"
"|5||PAR64 CP61|Keys|5||L119
""",
)

L(
    "dittos-village",
    "hall",
    "A village hall list full of ditto marks",
    "csv",
    """
Which bar,Lantern,From centre,Type,Lights,Ch,Gel
FOH,1,2m SR,Profile 36,DSR,1,L103
"""
    + '''
"""",2,0,"""","DSC",2,""""
"""",3,2m SL,"""","DSL",3,""""
LX2,1,2m SR,Fresnel 650,USR,4,L201
"""",2,0,"""","USC",5,""""
"""",3,2m SL,"""","USL",6,""""
'''.lstrip("\n"),
    """
FOH|1|-2|Profile 36|DSR|1||L103
"|2|0|"|DSC|2||"
"|3|2|"|DSL|3||"
LX2|1|-2|Fresnel 650|USR|4||L201
"|2|0|"|USC|5||"
"|3|2|"|USL|6||"
""",
)

L(
    "formula-offsets",
    "opera",
    "A workbook whose places are formulas (centimetres over 100)",
    "xlsx-xlsxwriter",
    """
Position|Unit|cm|At (m, SL +)|Lantern|Focus|Channel|Colour
Bar 2|1|-420|=C2/100=>-4.2|Profile 36|USR|51|L161
Bar 2|2|-130|=C3/100=>-1.3|Profile 36|USC|52|L161
Bar 2|3|145|=C4/100=>1.45|Profile 36|USC|53|L161
Bar 2|4|430|=C5/100=>4.3|Profile 36|USL|54|L161
Bar 3|1|-200|=C6/100=>-2|PC 1.2k|Throne|61|L201
Bar 3|2|310|=C7/100=>3.1|PC 1.2k|Throne|62|L205
""",
    """
Bar 2|1|-4.2|Profile 36|USR|51||L161
"|2|-1.3|"|USC|52||"
"|3|1.45|"|USC|53||"
"|4|4.3|"|USL|54||"
Bar 3|1|-2|PC 1.2k|Throne|61||L201
"|2|3.1|"|Throne|62||L205
""",
)

L(
    "hookup-sort",
    "playhouse",
    "A hookup kept in channel order: positions interleaved",
    "csv",
    """
CHANNEL HOOKUP,,,,,,
Chan,Position,Unit#,Type & wattage,Purpose,Color,Location
(1),FOH Cove,3,19° ERS 575w,Area 1,R02,8'-0 SL
(2),FOH Cove,2,19° ERS 575w,Area 2,R02,0'-6 SR
(3),FOH Cove,1,19° ERS 575w,Area 3,R02,9'-0 SR
(11),1st Electric,2,6in Fresnel 750w,Area 4,R64,7'-6 SL
(12),2nd Electric,1,8in Fresnel 1kw,Area 5,R64,1'-3 SR
(13),1st Electric,1,6in Fresnel 750w,Area 6,R64,7'-6 SR
""",
    """
FOH Cove|3|8f|19deg ERS|Area 1|1||R02
"|2|-.5f|"|Area 2|2||"
"|1|-9f|"|Area 3|3||"
1st Electric|2|7.5f|6in Fresnel|Area 4|11||R64
2nd Electric|1|-1.25f|8in Fresnel|Area 5|12||R64
1st Electric|1|-7.5f|6in Fresnel|Area 6|13||R64
""",
)

L(
    "booms-section",
    "opera",
    "A ballet school list: one section per boom, heights, top to bottom",
    "csv-bom",
    """
Ballet gala - sides,,,,
,,,,
SL BOOM 1,,,,
Unit,Height,Lantern,Focus,Colour
1,3.4m,Profile 36,CSR,L202
2,2.1m,Profile 36,CS,L147
3,0.4m,Profile 50,CS,L174
,,,,
SR BOOM 1,,,,
Unit,Height,Lantern,Focus,Colour
1,3.4m,Profile 36,CSL,L202
2,2.1m,Profile 36,CS,L147
3,0.4m,Profile 50,CS,L174
""",
    """
SL Boom 1|1|3.4|Profile 36|CSR|||L202
"|2|2.1|"|CS|||L147
"|3|.4|Profile 50|CS|||L174
SR Boom 1|1|3.4|Profile 36|CSL|||L202
"|2|2.1|"|CS|||L147
"|3|.4|Profile 50|CS|||L174
""",
)
