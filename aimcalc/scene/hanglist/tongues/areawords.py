"""What targets are called in other languages: how far up the stage, its sides, and things of a set, of a
church and of a band; each line a meaning with the words that have it. A word of two stands in two."""

from __future__ import annotations

from functools import lru_cache

from aimcalc.named import regex
from aimcalc.scene.hanglist.names.spelling import fold_case

# English, German, French, Spanish, Italian, Portuguese, Catalan, Dutch, Swedish, Danish, Norwegian, Finnish,
# Polish, Czech; "d", "m" and "u" are down, mid and up stage.
_ROWS = """
d: d, ds, down, downstage, dn, forestage, fore stage, apron, front, thrust, vorne, vorn, rampe, vordere
d: vorderer, vorderes, vorbühne, vorderbühne, bühne vorne, vorderbereich, proszenium, avant, face
d: avant scène, avant-scène, nez de scène, nez de plateau, devant, bord plateau, proscénium, proscenio
d: primer término, delante, frente, boca, boca de escena, boca de cena, boca escena, corbata, adelante
d: delantero, delantera, avanti, davanti, ribalta, avanscena, boccascena, fronte, anteriore, fronte palco
d: proscénio, à frente, dianteira, davant, prosceni, prosceni davant, voor, vooraan, voortoneel, voorkant
d: voorste, voorscène, voor toneel, fram, framme, framkant, framscen, förscen, främre, främst, foran
d: forrest, forreste, forscene, forscenen, fremme, fremre, framme på scen, etu, edessä, etuosa
d: etunäyttämö, etuala, przód, z przodu, przodem, przednia, proscenium, proscenium przód, vpředu, přední
d: předek, předscéna, längst fram
m: m, ms, mid, middle, midstage, mid stage, c, cs, ctr, centre, center, central, centre stage
m: center stage, mitte, mittig, mittlere, mittlerer, bühnenmitte, mittelbühne, zentrum, mittel, milieu
m: médian, médiane, centre scène, centre plateau, milieu scène, milieu de scène, milieu plateau, centro
m: medio, media, mitad, mezzo, centrale, centro palco, metà palco, centro escena, centro escenario, meio
m: centro do palco, centro cena, mig, centre escenari, al centro, au centre, en el centro, al centre
m: midden, middelste, midtoneel, middentoneel, mitten, mitt, mittscen, mittenscen, scenmitt, midt, midten
m: midtscene, midterste, scenemidt, sentrum, senter, keski, keskellä, keskiosa, keskinäyttämö, środek
m: środkowy, środku, na środku, střed, uprostřed, střední, house centre, house center, bühne mitte
u: u, us, up, upstage, back, rear, hinten, hintere, hinterer, hinteres, hinterbühne, bühne hinten
u: rückseite, hinterbereich, lointain, fond, arrière, fond de scène, fond scène, arrière scène
u: arrière-scène, fond plateau, derrière, fondo, foro, atrás, detrás, fondo escena, fondo escenario
u: al fondo, último término, trasero, trasera, fondo palco, fondo scena, retro, dietro, in fondo
u: posteriore, fundo, ao fundo, trás, fundo cena, fons, darrere, fons escenari, achter, achteraan
u: achtertoneel, achterkant, achterste, achter toneel, bak, bakre, bakscen, baktill, bakom, längst bak
u: bag, bagerst, bageste, bagscene, bagscenen, bagved, bakerst, bakerste, bakscene, taka, takana, takaosa
u: takanäyttämö, taka-ala, tył, z tyłu, tylna, głębia, w głębi, vzadu, zadní, zadek, pozadí, bagest
u: længst bag
sl: sl, stage left, stageleft, cour, côté cour, corte, lato corte, lado corte, hofkant, hofzijde, dameside
sl: damesiden, hof, house right
sr: sr, stage right, stageright, jardin, côté jardin, giardino, lato giardino, lado jardín, tuinkant
sr: tuinzijde, kongeside, kongesiden, jardí, jardim, tuin, house left
l: l, left, links, linke, linker, linkes, linksaußen, li, lks, gauche, à gauche, gche, izquierda
l: izquierdo, izq, izqda, izda, sinistra, sinistro, a sinistra, sx, esquerda, esquerdo, à esquerda, esq
l: esquerra, linkerkant, linkerzijde, vänster, vä, venstre, vasen, vasemmalla, vas, lewa, lewo, lewy
l: lewej, po lewej, z lewej, vlevo, levá, levo, levý
r: r, right, rechts, rechte, rechter, rechtes, rechtsaußen, re, rts, droite, à droite, drte, dte, derecha
r: derecho, dcha, dcho, destra, destro, a destra, dx, direita, direito, à direita, dta, dreta, rechterkant
r: rechterzijde, höger, hö, højre, høyre, oikea, oikealla, oik, prawa, prawo, prawy, prawej, po prawej
r: z prawej, vpravo, pravá, pravo, pravý
"""
_THINGS = """
altar: altar, alter, autel, altare, altaar, alttari, ołtarz, oltář, altar table, communion table
altar: maître-autel, hochaltar, high altar, maestro altar, altar mayor, altar mor, altar major, altaret
altar: alteret, oltarz
pulpit: pulpit, kanzel, chaire, púlpito, pulpito, trona, preekstoel, kansel, predikstol, predikstolen
pulpit: prædikestol, prekestol, saarnatuoli, ambona, kazatelna, la chaire
lectern: lectern, reading desk, lesepult, lutrin, pupitre, atril, leggio, ambo, ambón, ambone, estante
lectern: faristol, lessenaar, katheder, läspulpet, læsepult, lesepulten, lukupulpetti, pulpit do czytania
lectern: talarstol, talarstolen, talerstolen
lectern: pult, rednerpult, pupitre du lecteur, speaker's desk, reader's desk, talerstol, speakers desk
font: font, baptismal font, taufstein, taufbecken, taufe, fonts baptismaux, baptistère, pila bautismal
font: pila, fonte battesimale, battistero, pia baptismal, pia batismal, doopvont, dopfunt, dopfunten
font: døbefont, døpefont, kastemalja, chrzcielnica, křtitelnice, baptistery, fonts
choir: choir, choir stalls, choirs, chor, chorraum, choeur, chœur, coro, cor, koor, kör, kor, koret, kören
choir: kuoro, chór, sbor, chorgestühl, chorus, singers, choristers, sängerchor
organ: organ, orgel, orgue, órgano, organo, órgão, urut, organy, varhany, orgeln, orgelet, orgues
cross: cross, crucifix, kreuz, kruzifix, croix, crucifijo, cruz, croce, crocifisso, creu, kruis
cross: kruisbeeld, kors, korset, krucifix, risti, krzyż, kříž
nave: nave, schiff, mittelschiff, langhaus, kirchenschiff, nef, navata, schip, middenschip, skepp
nave: mittskepp, kirkeskib, kirkeskip, midtskip, kirkkosali, nawa, loď, naus, nau
crib: crib, manger, krippe, crèche, pesebre, belén, presepe, presépio, pessebre, kribbe, krubba, krybbe
crib: szopka, stable, jesle, mangiatoia, nativity scene
candles: candles, candle, kerzen, kerze, bougies, bougie, cierges, velas, vela, candele, candela, kaarsen
candles: kaars, stearinljus, świece, svíčky
pew: pew, pews, kirchenbank, kerkbank, kirkebænk, kyrkbänk, banc d'église
steps: steps, step, stairs, stair, staircase, stairway, flight of steps, treppe, treppen, stufe, stufen
steps: escalier, escaliers, marche, marches, escalera, escaleras, escalón, escalones, peldaño, gradas
steps: scala, scale, scalinata, gradini, gradino, escada, escadas, degrau, degraus, escala, esglaó, graons
steps: trap, trappen, trappa, trappan, trappe, trapp, portaat, schody, schodek, trede, trappsteg
steps: altarstufen, chancel steps, chancel step, altar steps
sofa: sofa, couch, settee, chesterfield, kanapee, canapé, sofá, divano, sofà, zetel, soffa, soffan, sofaen
sofa: sohva, kanapa, sofka, pohovka, gauč, divan, diván, bankstel, zitbank, loveseat, love seat, bank
table: table, tables, dining table, esstisch, tisch, tische, la table, mesa, mesas, tavolo, tavola, taula
table: tafel, tafels, eettafel, bord, bordet, matbord, spisebord, pöytä, stół, stolik, stůl, kitchen table
table: küchentisch, keukentafel, table à manger, mesa de comedor, tavolo da pranzo, mesa de jantar
door: door, doors, doorway, the door, tür, türe, türen, porte, portes, puerta, puertas, porta, deur
door: deuren, dörr, dörren, dør, døren, døra, ovi, drzwi, dveře, ingresso, entrance, entrée, eingang
door: entrada, ingang, ingång, indgang, inngang, wejście, vchod
frontdoor: front door, house door, haustür, wohnungstür, eingangstür, porte d'entrée, puerta principal
frontdoor: porta d'ingresso, porta principale, porta de entrada, porta d'entrada, voordeur, ytterdörr
frontdoor: hoveddør, ytterdør, ulko-ovi, drzwi wejściowe, entrance door, puerta de entrada, hoveddøren
frenchwindow: french window, french windows, french doors, porte-fenêtre, portes-fenêtres, porte fenêtre
frenchwindow: terrassentür, terrassentüre, fenstertür, puerta ventana, portafinestra, porta finestra
frenchwindow: openslaande deuren, tuindeuren, altandörr, terrassedør, patio doors, patio door
window: window, windows, fenster, fenêtre, fenêtres, ventana, ventanas, ventanal, finestra, finestre
window: janela, janelas, raam, ramen, venster, fönster, fönstret, vindue, vinduet, vindu, ikkuna, okno
window: okna, bay window
fireplace: fireplace, fire place, hearth, chimney, mantelpiece, kamin, kaminofen, cheminée, chimenea
fireplace: camino, caminetto, focolare, lareira, llar de foc, xemeneia, haard, open haard, schouw
fireplace: öppen spis, eldstad, kaminen, pejs, pejsen, peis, peisen, takka, kominek, krb
desk: desk, writing desk, bureau, schreibtisch, schreibpult, escritorio, scrivania, escrivaninha
desk: secretária, escriptori, schrijftafel, skrivbord, skrivbordet, skrivebord, kirjoituspöytä, biurko
desk: psací stůl
armchair: armchair, arm chair, easy chair, wing chair, sessel, ohrensessel, lehnstuhl, fauteuil, sillón
armchair: butaca, poltrona, cadeirão, leunstoel, armstoel, fåtölj, fåtöljen, lænestol, lenestol, nojatuoli
armchair: fotel, křeslo
chair: chair, chairs, stuhl, stühle, chaise, chaises, silla, sillas, sedia, sedie, cadeira, cadeiras
chair: cadira, stoel, stoelen, stol, stolen, stolar, stole, tuoli, krzesło, krzesła, židle
bed: bed, bett, lit, cama, letto, llit, säng, sängen, seng, sengen, sänky, łóżko, postel, the bed
bed: doppelbett
bench: bench, benches, bank, bänke, banc, bancs, banco, bancos, panca, panchina, bankje, bänk, bänken
bench: bænk, bænken, benk, benken, penkki, ławka, ławeczka, lavička, lavice, parkbank, park bench
bench: gartenbank
throne: throne, thron, trône, trono, tron, troon, tronen, trone, valtaistuin, trůn
bar: bar, bar counter, theke, tresen, comptoir, barra, mostrador, bancone, balcão, taulell, toog, bardisk
bar: baari, counter, toonbank, disk, lada, pult baru, bartresen
piano: piano, klavier, flügel, grand piano, konzertflügel, piano à queue, pianoforte, pianoforte a coda
piano: vleugel, flygel, flyglet, pianino, fortepian, klavír, piáno, piano de cola, piano de cauda
piano: upright piano, pianist, pianiste, pianista, klaver
tree: tree, trees, baum, bäume, arbre, arbres, árbol, árboles, albero, alberi, árvore, boom, bomen, träd
tree: trädet, træ, træet, tre, treet, puu, drzewo, drzewa, strom
wall: wall, mauer, wand, mur, muro, pared, muur, vägg, væg, vegg, seinä, ściana, zeď, paret, parede
wall: parete
well: well, brunnen, puits, pozo, pozzo, poço, pou, put, waterput, brunn, brønd, brønn, kaivo, studnia
well: studna
fountain: fountain, springbrunnen, fontaine, fuente, fontana, fonte, fontein, fontän, springvand, fontene
fountain: brunnen, fontanna, kašna
gate: gate, tor, portail, grille, portón, cancello, portão, poort, hek, grind, grinden, port, portti
gate: brama, brána
balcony: balcony, balkon, balcon, balcón, balcone, varanda, sacada, balcó, balkong, altan, parveke
balcony: balkonen
kitchen: kitchen, küche, cuisine, cocina, cucina, cozinha, cuina, keuken, kök, køkken, kjøkken, keittiö
kitchen: kuchnia, kuchyně, kuchyň
garden: garden, garten, jardin, jardín, giardino, jardim, jardí, tuin, trädgård, have, hage, puutarha
garden: ogród, zahrada
mirror: mirror, spiegel, miroir, espejo, specchio, espelho, mirall, spegel, spejl, speil, peili, lustro
mirror: zrcadlo
wardrobe: wardrobe, cupboard, schrank, kleiderschrank, armoire, placard, armario, armadio, armário, armari
wardrobe: kast, kleerkast, skåp, garderob, skab, skap, kaappi, szafa, skříň
bookcase: bookcase, bookshelf, bookshelves, bücherregal, bibliothèque, estantería, librería, libreria
bookcase: estante, boekenkast, bokhylla, reol, bogreol, bokhylle, kirjahylly, regał, knihovna, bücherwand
stove: stove, cooker, ofen, herd, poêle, cuisinière, estufa, stufa, fogão, kachel, fornuis, spis, komfur
stove: ovn, liesi, piec, kamna, sporák
grave: grave, tomb, grab, tombe, tombeau, tumba, sepulcro, tomba, túmulo, graf, grav, graven, hauta, grób
grave: hrob
rock: rock, rocks, stone, fels, felsen, stein, rocher, pierre, roca, piedra, roccia, sasso, rocha, pedra
rock: rots, steen, klippa, sten, klippe, kivi, skała, kamień, skála, kámen
home: house, haus, maison, casa, huis, hus, huset, talo, dom, dům
boat: boat, ship, boot, kahn, bateau, barque, barco, barca, schip, bootje, båt, båten, båd, vene, łódź
boat: loďka, člun, nave
platform: platform, rostrum, rostra, podium, podest, podeste, praticable, practicable, estrade, tarima
platform: praticabile, pedana, estrado, praticável, praktikabel, podiet, koroke, praktikábl, riser
ramp: ramp, rampe, rampa, helling, ramppi
screen: screen, projection screen, leinwand, écran, pantalla, schermo, tela, telão, projectiescherm
screen: scherm, duk, filmduk, lærred, lerret, valkokangas, ekran, plátno
cyc: cyc, cyclo, cyclorama, sky cloth, skycloth, horizont, rundhorizont, ciclorama, horizon, horizondoek
cyc: horizonte, panorama, fondhorisont, rundhorisont, horisont, horisonten, cyklorama, horyzont
cyc: horizontti
cloth: cloth, drop, backcloth, back cloth, backdrop, back drop, prospekt, rückprospekt
cloth: hintergrundprospekt, hintergrund, toile de fond, toile, rideau de fond, telón de fondo, telón
cloth: fondale, telão de fundo, teló, teló de fons, achterdoek, achtergronddoek, fonddoek, fond, fonden
cloth: fondtæppe, bakgrund, bakgrundsfond, baggrund, bagtæppe, bakteppe, taustakangas, horyzont malowany
cloth: prospekt malowany, zadní prospekt
curtain: curtain, house curtain, tabs, vorhang, hauptvorhang, rideau, rideau de scène, cortina
curtain: telón de boca, sipario, cortina de boca, doek, voordoek, gordijn, ridå, ridån, fortæppe
curtain: sceneteppe, esirippu, kurtyna, opona
band: band, orchestra, kapelle, orchester, groupe, orchestre, banda, orquesta, orquestra, orkest, orkester
band: orkesteri, orkiestra, kapela, musicians, musiker, musiciens, músicos, musicisti, muzikanten, bandet
drums: drum, drums, drum kit, drumkit, schlagzeug, batterie, batería, batteria, bateria, slagwerk
drums: drumstel, trummor, trommer, rummut, perkusja, bicí, drummer, kit
vocal: vocal, vocals, singer, lead singer, gesang, sänger, sängerin, chant, chanteur, chanteuse, cantante
vocal: voz, voce, cantor, cantora, zang, zanger, zangeres, sång, sångare, sangerinne, sanger, laulaja
vocal: wokal, zpěv, zpěvák, vocalist, vox, voc, lead vox, vocalista, zangeres, sångerska, sangerin
soloist: soloist, solist, solistin, soliste, solista, solisten
narrator: narrator, erzähler, erzählerin, sprecher, narrateur, récitant, conteur, narrador, narradora
narrator: narratore, verteller, berättare, fortæller, forteller, kertoja, narratorka, vypravěč
narrator: storyteller
conductor: conductor, dirigent, dirigentin, dirigentenpult, chef d'orchestre, direttore, maestro
conductor: kapellimestari, dyrygent, regente, md
guitar: git, gtr, guit, guitarist, gitarrist, guitariste, guitarrista, chitarrista, gitarist
guitar: guitar, gitarre, guitare, guitarra, chitarra, gitaar, gitarr, gitar, kitara, gitara, kytara
bass: bass, basse, bajo, basso, baixo, baix, bas, basgitaar, bassgitarre, basso elettrico
keys: keys, keyboard, keyboards, kbd, keyboarder, synth, synthesizer, tastiere, tastiera, tastierista
keys: teclado, teclados, teclats, toetsen, toetsenist, claviers, clavier, tangenter, klaviatur
keys: koskettimet, kosketinsoitin, klawisze, klávesy
crowd: crowd, spectators, punters
logo: logo, logos, logga, loggan, logotyp, logotypen, logotype, logotipo, logotip, logoet, logoen
dancefloor: dance floor, dancefloor, tanzfläche, piste, piste de danse, pista, pista de baile
dancefloor: pista da ballo, dansvloer, dansgolv, dansegulv, tanssilattia, parkiet, parket
catwalk: catwalk, runway, laufsteg, podium défilé, pasarela, passerella, passarela, loopbrug
phone: phone, telephone, telefon, téléphone, teléfono, telefono, telefone, telefoon, puhelin
cradle: cradle, cot, wiege, berceau, cuna, culla, berço, wieg, vagga, vugge, kehto, kołyska, kolébka
clock: clock, uhr, standuhr, horloge, pendule, reloj, orologio, relógio, klok, klocka, ur, klokke, kello
clock: zegar, hodiny, grandfather clock
statue: statue, standbild, estatua, statua, estátua, beeld, standbeeld, staty, patsas, posąg, socha
"""
# What is one of another sort of thing.
KIND_OF = {"frontdoor": "door", "frenchwindow": "window"}
# Words beside a meaning that add nothing to it.
_FILLERS = """
area areas zone zona zonen zonas aree zones acting the of on at to in am auf der die das dem den la le les
el los las il lo gli de del della dello di du des do da dos van het det en et ett al alla bereich fläche
spielfläche aire playing part corner region bühne stage scene scena scenen toneel palco escena escenario
plateau side seite cote lado lato kant sida spot punkt vom von dell à
"""
_ACTOR = """
actor actors actor's acteur comedien comediens spieler schauspieler darsteller speler attore ator
skadespelare skuespiller nayttelija aktor herec acteurs
"""
_HOUSE = """
house audience audience's public publikum zuschauer salle sala publico pubblico platea zaal publiek saal
salong salongen sal yleiso widownia hlediste
"""
FILLERS = frozenset(map(fold_case, _FILLERS.split()))
ACTOR = frozenset(map(fold_case, _ACTOR.split()))
HOUSE = frozenset(map(fold_case, _HOUSE.split()))
# Those of them that say who sits there, alone.
PUBLIC = HOUSE - {
    "house",
    "audience's",
    "salle",
    "sala",
    "zaal",
    "saal",
    "salong",
    "salongen",
    "sal",
}
Phrases = dict[tuple[str, ...], tuple[str, ...]]


@lru_cache(maxsize=1)
def _tables() -> tuple[Phrases, Phrases]:
    """The meanings of words as they are written, and without their accents."""
    written: dict[tuple[str, ...], dict[str, None]] = {}
    plain: dict[tuple[str, ...], dict[str, None]] = {}
    for line in (_ROWS + _THINGS).strip().splitlines():
        meaning, _, words = line.partition(": ")
        for phrase in words.split(", "):
            own = words_of(phrase)
            written.setdefault(own, {})[meaning] = None
            for way in {tuple(map(fold_case, own)), words_of(phrase.translate(_UMLAUTS))}:
                plain.setdefault(way, {})[meaning] = None
    return (
        {words: tuple(meanings) for words, meanings in written.items()},
        {words: tuple(meanings) for words, meanings in plain.items()},
    )


_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe", "æ": "ae"})


def words_of(text: str) -> tuple[str, ...]:
    """The words and figures of a name or a cell, in lower case."""
    return tuple(_WORD.findall(text.casefold().replace("œ", "oe")))


_WORD = regex(r"[^\W_]+")


def meanings_of(words: tuple[str, ...]) -> tuple[str, ...]:
    """The meanings of words that stand together, none where they have none; accents tell words apart, and may
    be left out."""
    written, plain = _tables()
    return written.get(words) or plain.get(tuple(map(fold_case, words)), ())
