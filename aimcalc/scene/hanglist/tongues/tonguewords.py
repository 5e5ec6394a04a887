"""Words of other languages for where units hang, whose left and right is meant, and what the positions are
called, with the English ones."""

from __future__ import annotations

# English words, and those of other languages that stand for them, without their accents: German, French,
# Spanish, Italian, Portuguese, Catalan, Dutch, Swedish, Danish, Norwegian, Finnish, Polish, Czech.
SIDES = """
left: links, linke, linken, linker, linkes, linksseitig, lks, bühnenlinks, linkerkant, linkerzijde
left: toneellinks, gauche, izquierda, izquierdo, izq, izqda, izda, izdo, sinistra, sinistro, sx, esquerda
left: esquerdo, esq, esquerra, esquerre, vänster, venstre, vasen, vasemmalla, lewa, lewo, lewy, lewej, leva
left: levo, vlevo, zleva, buhne links, links der buhne, toneel links, scene gauche, linkem, linkse, vänstra
left: w lewo, na lewo, po lewej, po lewej stronie, lewa strona, doleva, nalevo, vasemmalle, côté gauche
left: scenvänster, scenevenstre, vasemmasta, lewego, lewym, levy, leveho, levem
right: rechts, rechte, rechten, rechter, rechtes, bühnenrechts, rechterkant, rechterzijde, toneelrechts
right: droite, droit, derecha, derecho, dcha, dcho, drcha, destra, destro, dx, direita, direito, dreta, dret
right: højre, høyre, oikea, oikealla, prawa, prawo, prawy, prawej, prava, pravo, vpravo, zprava
right: w prawo, na prawo, po prawej, po prawej stronie, prawa strona, doprava, napravo, oikealle, côté droit
right: rts
left: balra, baloldal
right: jobbra, jobboldal
right: toneel rechts, scenhöger, scenehøjre, scenehøyre
right: buhne rechts, scene droite, rechtem, rechtse, högra, oikeasta, prawego, prawym, pravy, praveho
right: pravem
jardin: jardin, giardino, jardí, jardim, tuinkant, tuinzijde, lato giardino, lado jardin, cote jardin
jardin: kant jardin, kongeside, kongesiden, kongesidens
cour: cour, corte, hofkant, hofzijde, lato corte, lado corte, cote cour, kant cour
cour: dameside, damesiden, damesidens
centre: mitte, bühnenmitte, mittelachse, mittellinie, mittig, symmetrieachse, nullachse, milieu, centro, eje
centre: axe, axe central, ligne mediane, mediane, linea central, linea media, linha central, eixo, asse
centre: mezzeria
from centre: uit hart, uit het hart, vanuit hart, vanuit het hart, vanaf hart, vanaf het hart
centre: linea centrale, linea di mezzeria, midden, middellijn, toneelmidden, hartlijn, middenas, eix, mitten
centre: mittlinje, mittlinjen, scenmitt, scenmitten, midt, midten, midtlinje, midtlinjen, midterlinje
from centre: keskilinjasta, keskelta, keskilinjalta, keskiviivasta
centre: scenemidt, sentrum, senter, senterlinje, keskilinja, keskella, keskiviiva, srodek
centre: achse, de as
centre: centrum, srodka, os sceny, osi, stred, stredu, osa, osy
right end: bout droit, rechtereind, rechtereinde, rechteruiteinde
left end: linkereind, linkereinde, linkeruiteinde
ds end: bout face, bout cote face, extremite face, extremite cote face, cote face
us end: bout lointain, bout cote lointain, extremite lointain, extremite cote lointain, cote lointain
"""
MEASURED = """
previous: projetor anterior, refletor anterior, projecteur précédent, proiettore precedente, faro precedente
previous: foco anterior, proyector anterior, vorigen scheinwerfer, vorherigen scheinwerfer, vorige lamp
previous: vorigen, vorherigen, précédent, precedente, voorgaande, föregående, forrige, poprzedniego
distance: odl, vzd, avst
distance: abst, afst, abstand, abstände, abständen, distanz, entfernung, distancia, distancias, distanza
distance: distanze
distance: afstand
distance: afstanden, avstånd, avstand, etaisyys, etaisyydet, odległość, odległości, vzdálenost, vzdálenosti
distance: ecart, eloignement, scostamento, separacion
measurement: maß, maße, maßen, mesure, mesures, cote, cotes, medida, medidas, misura, misure, maat, maten
measurement: mått, wymiary, rozmery, mides, mida, mitat
measured from: gemessen ab
measured: gemessen, gemeten, medido, medidos, mesuré, mesurés, mesurée, mesurées, misurato, misurati
measured: misurate
measured: mätt, målt, mierzone, měřeno, mitattu
numbered: numerierung, nummerierung, nummern, numeriert, nummeriert, gezählt, durchnummeriert, numérotés
numbered: numérotées, numérotation, numérotage, numéros, números, numerados, numeradas, numeración, numerati
numbered: numerate, numerazione, numeri, nummers, genummerd, nummering, numrerade, numrerat, numreret
numbered: nummerert, numery, čísla, číslováno, numerats
height: höhe, höhen, hoehe, hoehen, hauteur, hauteurs, altura, alturas, altezza, altezze, hoogte, hoogtes
height: højde, høyde, höjd, korkeus, wysokość, vyska, alçada, alçades
floor: boden, bühnenboden, sol, suelo, piso, terra, pavimento, chao, vloer, toneelvloer, golv, golvet, gulv
floor: gulvet, lattia, podloga, podlogi, podlaha, podlahy, terrasse
above: über, ueber, boven, sobre, sopra, au dessus, nad, acima, yllä
from: dalle, dai, dagli
from: ab, von, vom, depuis, desde, dal, dalla, dallo, dall, vanaf, vanuit, från, fra, od, à partir de
from: a partir du, a partir do, a partir da, a partir del, des del, des de, uit het, uit, da
of: delle, dei, degli, dello, du, de, di, del, della, dell, van, des, do, de la, de l
the: der, die, dem, den, das, le, la, les, el, los, las, il, lo, gli, het
to: nach, zu, zur, zum, bis, vers, naar, tot, till, til, mot, mod, hacia, verso, para, al, alla, au, aux
to: a la, ao
or: oder, ou, eller, oppure, nebo, lub, of ook
all: alles, tout, allt, wszystko, vse, kaikki, alle, alles, todas, todos, toutes, tous, tutte, tutti, todo
all: tutto, vsechny, wszystkie
is: ist, sind, est, sont, son, sono, zijn, jsou, są
sides: seitenangaben, richtungsangaben, seitenbezeichnungen, seiten, lados, côtés, lati, kanten, zijden
sides: puolet, oldalak
sides: sidor, sider, strony, strany, costats
side: stronę, stranou
side: sidan, siden, stronie, straně, strana, puolella
side: seite, bühnenseite, zijde, kant, lado, lato, cote de, sida, side, puoli, strona, costat
plus: mas, più, mais, pluswerte, positivwerte, pluszahlen, pluswaarden
minus: moins, menos, meno, minuswerte, negativwerte, minuszahlen, minwaarden
positive: positiv, positif, positifs, positives, positivo, positivos, positiva, positivas, positivi
positive: positieve
positive: dodatnio, dodatnia, dodatni
negative: ujemnie, ujemna, ujemny
positive: kladné, kladná, kladny
positive: positief, pozitivni, dodatnie, positiver
negative: negativ, negatif, negatifs, negatives, negativo, negativos, negativa, negativas, negativi
negative: negatieve, negatief, zaporne, ujemne
values: werte, valeurs, valores, valori, waarden, verdier, värden, vaerdier, hodnoty, wartosci, zahlen
booms: torn, tornen, tårn, tårnene, tårnet, wieże, wież, wieżach, věže, věžích, tornit, torneissa, torre
booms: sur pied, sur pieds
booms: türme, türmen, turm, bühnentürme, tours, torri, torres, torens, manteaus, echelles, stative, stativen
at: bei, bij, ved, vid, aan, a
between: zwischen, entre, tra, fra le, tussen, mellan, mellem, mellom, między, mezi
end: ende, endes, zugende, stangenende, rohrende, brückenende, traversenende, trussende, uiteinde, einde
end: eind
end: trekeinde, capo, extremo, extremos, punta, puntas, extremité, bout, estremità, estremo, ponta
end: extremidade
end: extrem, enden, änden, ände, pää, päästä, koniec, końca, konec, konce
plaster line: cadre de scène, cadre, portallinie, portalkante, boccascena, embocadura, boca de escena
plaster line: nullgasse, nulllinie, nullinie, null-linie
plaster line: boca del escenario, boca de cena, toneellijst, prosceniumlijst, portaallijn
from plaster line: du cadre de scène, du cadre
front: avant, vorderes, vorderen, vorderem, vordere, voorste, delantero, delantera, anteriore, dianteiro
front: dianteira, davanter, främre, forreste, fremre, przedni, przedniego, přední, předního
back: arrière, hinteres, hinteren, hinterem, hintere, achterste, trasero, trasera, posteriore, traseiro
back: traseira, darrere, bakre, bageste, bakerste, tylny, tylnego, zadní, zadního
forestage: avant scène, avant-scène
from top: von oben, ab oben, du haut, depuis le haut, from alto, dal alto, desde arriba, van boven
from top: vanaf boven, uppifrån, ovanifrån, ovenfra, od góry, shora, de cima, des de dalt, ylhäältä
above floor: von unten, ab unten, du bas, depuis le bas, from basso, dal basso, desde abajo, van onder
above floor: vanaf onder
above floor: nerifrån, nedenfra, od dołu, zdola, de baixo, alhaalta
"""
EVENLY = """
apart: fra hinanden, fra hverandre, från varandra, auseinander, zueinander, voneinander, uit elkaar
apart: van elkaar, entre chaque, entre chacun, l'un de l'autre, les uns des autres, uno dall'altro
apart: l'uno dall'altro, fra loro, tra loro, entre sí, entre cada uno, entre si, od siebie, od sebe
evenly: regolare, igual, regelmäßig, regelmäßigen, regelmäßigem, identiques, identici, idénticas
evenly: également, régulièrement, uniformément, égal, égale, égales, égaux
evenly: régulier, réguliers, régulière, gleichmäßig, gleichmäßige, gleichmäßigen, gleichmäßigem, gleich
evenly: gleiche, gleichen, gleichem, por igual, igualmente, uniformemente, uniforme, uniformes
evenly: iguales, regulares, regularmente, partes iguales, iguais
evenly: uguale, uguali, regolari, regolarmente, uniformi, modo uniforme, iguals
evenly: uniformement, gelijkmatig, gelijkmatige, gelijke, gelijk, regelmatig, regelmatige, evenredig, jämnt
evenly: jämna, lika, jævnt, jevnt, ens, tasaisesti, równomiernie, równo, równe, równych, rovnoměrně, stejné
evenly: stejných, stejně
spaced: réparti, répartis, répartie, réparties, espacé, espacés, espacées, espacement, distribués, disposés
spaced: intervalles, verteilt, verteilen, aufgeteilt, repartidos, repartidas, repartido, repartir
spaced: distribuidos
spaced: distribuidas, espaciados, espaciadas, intervalos, espaçados, distribuiti, distribuite, ripartiti
spaced: ripartite, spaziati, intervalli, disposti, repartits, repartides, distribuïts, espaiats, verdeeld
spaced: espaço, espaços, espaçamento, espacio, espacios, spazio, spazi
spaced: verdelen, fördelade, fördelat, fördelas, mellanrum, fordelt, fordeles, mellomrum, mellomrom
spaced: mellemrum
spaced: rozmieszczone, rozłożone, odstępach, odstępy, rozmístěno, rozmístěné, rozestupy, rozestupech, jaettu
evenly spaced: équidistant, équidistants, équidistantes, äquidistant, equidistantes, equidistante
evenly spaced: tasavälein
evenly spaced: equiespaciados, equiespaciadas, equidistanti, equispaziati, equidistants, jämnt fördelade
"""
# Ways that somebody looks or stands: at the seats, whose left is the stage's, or at the stage.
FACING = """
facing: guardando, mirando, mirant, regardant, kijkend, kijkend de, olhando, patrząc, face au, face aux
facing: face a la, face a, de cara
facing: faccia, fronte, frente, rivolti, rivolto, virado, vänd, vendt, gesicht, gezicht, met zicht, twarzą
facing: twarzą do, čelem
facing: pohľad na, pohľadu na, pohľade na, pohľadu do
facing: zwrócony, zwrócony do, sicht auf, sicht in, sicht ins, sicht zum, sicht zur, pohled na, pohledu na
view: kigger, kikker, tittar, schaut, schauend, kijkt, patrzy, patrzymy
facing: guarda, regarde, mira, olha, schaut, schauen, blickt, kijkt, pohled do, pohledu do, pri pohledu do
view: blick, blickrichtung, blik, blikrichting
away: dos, espaldas, spalle, costas, rücken, rug, ryggen, zády, plecami, plecami do
"""
UNITS = """
ft: pies, pie, pieds, pied, piedi, pés, fuß, fuss, voet, fot, fod, stop, jalkaa
in: pulgadas, pouces, pollici, polegadas, zoll, duim, tum, tommer
m: metrach, metrech, metros, metro, metri, mètres, mètre, metern, metry, metrů, metria, mts
cm: zentimeter, zentimetern, centimètres, centimetri, centimetros, centimeter, centimetra
mm: millimeter, millimetern, millimètres, millimetri, milimetros
"""
SEEN = """
seen: gesehen, gesehn, sedd, sedda, sedt, vu, vue, vus, vues, visto, vista, visti, viste, vistos
seen: vistas, gezien, sett, set, katsottuna, widok, viděno, vist
seen: pohľadu, pohľad
seen: sicht, pohled, pohledu, aus, perspective, perspektive, punto de vista, punto di vista, point de vue
seen: ponto de vista
stage: darsteller, darstellers, schauspieler, schauspielers, spieler, spielers, sänger, künstler, acteur
stage: acteurs, comédien, comédiens, interprete, interpretes, actor, actores, attore, attori, interpreti
stage: ator
stage: atores, speler, spelers, artista, artisti, skådespelare, skådespelaren, skuespiller, skuespilleren
stage: scenens, skådespelarens, skuespillerens, sångarens
stage: herca, hercov, näyttelijästä, näyttelijöistä, színész, színészek
house: publik
house: nézőtér, nézőtérről, néző, nézők, közönség
seen: felől, nézve, katsoen, katsoessa
stage: näyttelijä, näyttelijän, aktor, aktora, herec, herce, bailarin
house: zuschauer, publ, zuschauers, zuschauern, zuschauerraum, publikum, saal, saales, parkett, public, salle
house: spectateur, spectateurs, publico, espectador, espectadores, sala, pubblico, spettatore, spettatori
house: platea, plateia, publiek, zaal, toeschouwer, toeschouwers, salong, salongen, publiken, tilskuer
house: salen
house: katsomo, katsomosta, yleisö, widz, widza, widowni, widownia, divak, divaka, divaku, hledistě, públic
house view: publiekszicht, zaalzicht, zuschauerperspektive, publikumsperspektive, zuschauerblick, saalsicht
house view: publikumsicht, publikperspektiv, zuschauersicht, publikumssicht, kamerasicht, kameraperspektive
house view: kamerablick, camerazicht, publikumsblick, zuschaueransicht, publikumsansicht
stage view: spelerszicht, acteurszicht, darstellersicht, schauspielersicht, spielersicht, buhnensicht
stage view: darstellerperspektive, schauspielerperspektive, spielerperspektive, toneelzicht, akteurssicht
camera: camere, camera, cameras, telecamera, telecamere, camara, camaras, kamera, kameras, kameran, kameror
camera: kameraet, kamery
ds side: zaalkant, zaalzijde, publiekskant, publiekszijde, saalseite, zuschauerraumseite, salongssidan
ds side: publiksidan, publikumssiden, salsiden, zuschauerseitigen, zuschauerseitiges, zuschauerseitig
ds side: publikumsseitigen, publikumsseitiges, publikumsseitig, saalseitigen, saalseitiges, saalseitig
house: chi osserva, betrachter
house: betrachters, kijker, kijkers
house: åskådare, åskådaren, åskådarens, beskueren, tilskueren, tilskuerens, katsojan, katsojasta
house: regie, regia, cabina regia, zuschauerseite, publikumsseite
stage: chi sta in scena, chi e in scena, chi sta sul palco, chi recita, akteur, akteurs, danseur, danseurs
stage: ballerino, ballerini, cantante, cantanti, tänzer, zanger, zangers, danser, dansers
on stage: bühne, toneel, scène, escena, escenario, palco, palcoscenico, plateau, scen, scenen, lava, scena
stage: skuespillerens, skuespillernes, skådespelarens, skådespelarnas, aktørens, aktørenes
stage: danserens, dansarens
stage: danserin, schauspielerin, actrice, actriz, attrice, atriz, näyttelijöiden, aktorów, herců, herečky
stage: quem está no palco, quem está em palco, quem está em cena, quien está en escena
stage: chi sta in palcoscenico
stage: quien está en el escenario, quien está sobre el escenario, chi è in palcoscenico, chi è sul palco
stage: celui qui est sur scène, celui qui est en scène, celui qui est sur le plateau, står på scenen
stage: auf der bühne steht, auf der bühne stehend, op het toneel staat, op het podium staat, står på scen
stage: staand op het toneel, staande op het toneel, stojąc na scenie, stoi na scenie, stojí na jevišti
house: quem está na plateia, quien está en la sala, chi sta in platea, chi è in platea, chi sta in sala
house: sitter i salongen, sidder i salen, sitter i salen, im saal sitzt, im saal sitzend, in de zaal zit
house: siedzi na widowni, siedząc na widowni, sedí v hledišti, qui est dans la salle, quem vê
house: tilskuernes, åskådarnas, publikums, publikens, publikummets, espectadora, spettatrice, widzów
house: widownię, publiczności, publiczność, diváků, publika, publiku, hledišti, katsojien, yleisön, yleisöstä
house: katsomosta päin, yleisöstä päin
to house: katsomoon, yleisöön, katsomoon päin, yleisöön päin
to stage: näyttämölle, näyttämölle päin, lavalle päin
on stage: podium, podiet, scenę, scenie, jevišti, escenari, palcos, cena, palcoscenici
on stage: sceny, jeviště, escenari, näyttämö, näyttämöltä
"""
# Whoever else looks on or plays, as school halls, churches and clubs have them.
LOOKERS = """
stage: musiker, musikers, sängerin, tänzers, tänzerin, künstlers, redners, sprechers, predigers, moderators
stage: chanteur, chanteurs, chanteuse, musicien, musiciens, danseuse, danseuses, músico, músicos, bailarín
stage: bailarines, bailarina, bailarinas, musicista, musicisti, cantanti, ballerine, cantor, cantores
stage: bailarino, bailarinos, muzikant, muzikanten, danseres, artiest, artiesten, uitvoerder
stage: uitvoerders, spreker
stage: sångaren, sångare, dansaren, dansarna, dansarnas, musikern, musikerns, musikerna, artistens, sangeren
stage: sangerens, sangerne, danserne, musikeren, musikerens, kunstneren, skuespillerne, skådespelarna
stage: esiintyjä, esiintyjän, esiintyjien, laulajan, tanssijan, soittajan, wykonawcy, wykonawców, tancerza
stage: tancerzy, śpiewaka, piosenkarza, artysty, účinkujícího, účinkujících, zpěváka, tanečníka, hudebníka
stage: cantant, cantants, ballarí, músic, músics, ballarins
stage: on est sur scène, on est sur la scène, se trouve sur scène, estando en el escenario
stage: estás en el escenario
stage: stando sul palco, stando in palcoscenico, stando in scena, stojíš na jevišti, stojíte na jevišti
stage: estando no palco, estás no palco, estant a l escenari
on stage: lavalta, lavalla
house: eltern, gemeinde, regiepult, lichtpult, tonpult, mischpult, regieplatz, stellwerk, tribüne, parents
house: assemblée, cabine, gradin, gradins, padres, cabina, genitori, quem assiste, ouders, regietafel
house: lichttafel
house: geluidstafel, mengtafel, kerkbank, kerkbanken, gemeente, regiecabine, föräldrarna, ljusbordet
house: ljudbordet, församlingen, åskådarplats, publikplats, forældrene, foreldrene, lyspulten
house: lydpulten, teknikken
house: menigheten, menigheden, valopöydältä, ohjaamosta, miksauspöydältä, reżyserki, realizatorki, kabiny
"""
# Words that are English too, or another language's for something else: they alone make no text foreign.
_ENGLISH_WORDS = r"""
jardin cour sol terra a al at la le les el lo il l the der die dem den das do de du des of to or od
mod bis alle all is son est sida side mas mais meno min vid ved tours aus vista perspective set sett
sicht vist stage house floor above from centre left right plus minus positive positives negative
negatives values actor public publicos sala artista parkett regie axe platea plateau scene scena
scen palco lava pie pied fot tum stop fuss metro meter mts m cm mm ft in centimeter millimeter
centimetres millimetres mass masse mat mida mal para mot vers ab von van uit piso corte leva prava
osa os zu tot terrasse milieu height distance measurement booms seen blick senter sentrum medida
cote cadre tout till til di rug dos egal uniforme view facing away front back between evenly spaced
podium cena publika torn tarn torre schaut
parents gradin tribune end camera cameras kamera kameras dai danser cantante dello [^\W\d_]
"""
ENGLISH_TOO = frozenset(_ENGLISH_WORDS.split())
FOREIGN_UNITS = frozenset(("pies", "pieds", "piedi", "pulgadas", "pouces", "pollici", "zoll"))

# What bars, bridges, towers and stands are called, for lists of a company whose words are not the house's:
# "Batten 1" of Zug 1, "Perche 2" of Bar 2. Each stands as a whole word; of sides the garden and the court
# alone are among them, since whose left a word means is asked elsewhere.
# Without accents, as `fold_case` leaves them; the first word stands for all of its line.
_SORTS = """
lx zug zuge zugstange laststange stange perche perches porteuse porteuses trek trekken ra raer sztankiet
lx sztankiety tah tahy tiro tiri vara varas varal barra barras bara barre americana americanas tanko tangot
lx ror rør rohr rohre tubo tubos tubi
lx trekk træk traek dragning stang rejtrek hijs takkel bar bars batten battens pipe pipes elx
truss traverse traversen pont traliccio trusses kratownica tralicc triangel tross ristikko
bridge brucke bruecke passerelle puente ponte pasarela bro brug most silta lavka bridges
tower turm turme tour tours torre torri torn tarn toren wieza wieze vez torni towers
boom booms
gallery galerie galerien galleria galeria galleri galerij gallerier parvi ochoz galeries galleries
stand stands stativ stative pied pieds statyw statywy stojan statief jalusta treppiede tripode tripod
stand tripods tripie treppiedi
floor boden sol suelo piso pavimento chao golv gulv vloer podloga podlaha lattia
back rear
mid middle
foh face frontal sala salle zaal saal salong salongs frente auditorium zuschauerraum
ladder ladders echelle echelles leiter leitern escada stege drabinka drabinki
sl cour corte hofkant hofzijde
sr jardin giardino tuinkant tuinzijde
"""
# Bars and bridges over the seats in one word.
_OVER_SEATS = {
    **dict.fromkeys(("zaalbrug", "saalbrucke", "saalbruecke", "salongsbro"), "foh bridge"),
    **dict.fromkeys(
        ("zaaltrek", "saalzug", "salongsror", "salsror", "salsrør", "salrør"), "foh lx"
    ),
}
# Other bridges in one word, so that a bare "Bridge" is not taken for the only one that is known.
_BRIDGES = {
    f"{front}{bridge}": f"{front} bridge"
    for fronts, bridges in (
        (
            "portal proszeniums vorbuhnen buhnen arbeits beleuchter beleuchtungs licht haupt",
            "brucke bruecke",
        ),
        ("portaal toneel licht werk", "brug"),
        ("portal scen lys ljus", "bro bron"),
    )
    for front in fronts.split()
    for bridge in bridges.split()
}
TONGUES = (
    _OVER_SEATS
    | _BRIDGES
    | {word: line.split()[0] for line in _SORTS.strip().splitlines() for word in line.split()[1:]}
)
# What is taken for one another where that leaves one position: any bar or truss, any tower, boom or ladder.
_LOOSELY = {"truss": "lx", "boom": "tower", "ladder": "tower", "foh bridge": "foh lx"}
LOOSELY = _LOOSELY | {word: _LOOSELY.get(sort, sort) for word, sort in TONGUES.items()}
