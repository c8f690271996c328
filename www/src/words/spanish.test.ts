import { expect, test } from 'vitest';
import { spanish } from './spanish.ts';

const { heard, mend } = spanish;

test('what the core made of a template is heard by it, its values too', () => {
  expect(heard("The dig reaches 2'-0\" over the front line.")).toBe("La excavación pasa 2'-0\" más allá del lindero del frente.");
  expect(heard('Sides of 1/2:1 (run to rise) are steeper than 1:1, the steepest unsupported slope the standard lists for this class of soil.')).toBe(
    'Los lados de 1/2:1 (horizontal a vertical) son más empinados que 1:1, el talud sin apoyo más empinado que la norma da para esta clase de suelo.',
  );
  expect(heard('Clearances hold with 2\'-1" to spare at side line.')).toBe('Las distancias cumplen con 2\'-1" de sobra en el lindero lateral.');
});

test('values that stand side by side are parted by what is known of them', () => {
  expect(heard('Clearances hold with 4\'-0" to spare at septic field, mostly by example rules not yet confirmed for this lot.')).toBe(
    'Las distancias cumplen con 4\'-0" de sobra en el campo de infiltración, casi todo con reglas de ejemplo sin confirmar para este lote.',
  );
  expect(heard('The dig runs into east fence.')).toBe('La excavación choca con east fence.');
  expect(heard('House sewer (sewer or drain) is known only from memory, its top 2\'-0" below the ground. Positions on paper are not marks.')).toBe(
    'House sewer (drenaje): se conoce solo por memoria, con su parte de arriba a 2\'-0" bajo el terreno. Lo que está en papel no son marcas.',
  );
  expect(heard('lot corner 4, iron pipe not found')).toBe('esquina 4 del lote, tubo de hierro, no se encontró');
  expect(heard('All elevations count from an assumed datum: nail in the curb 100.00 ft (assumed).')).toBe(
    'Todas las elevaciones cuentan desde un nivel supuesto: nail in the curb 100.00 ft (supuesta).',
  );
  expect(heard('Nobody measured the ground at some offset stakes, so their cut is not known: O1, O7.')).toBe(
    'Nadie midió el terreno en algunas estacas de referencia, así que no se conoce su corte: O1, O7.',
  );
  expect(heard('Rim at 100.20 ft')).toBe('Borde a 100.20 ft');
  expect(heard('root protection of oak')).toBe('la protección de raíces de oak');
});

test('a calculation is heard name by name', () => {
  expect(heard('area of the sump x sump depth x (1 + waste)')).toBe('área del cárcamo x profundidad del cárcamo x (1 + desperdicio)');
  expect(heard('over-dig 0\'-8", base thickness 0\'-4", side slope 1:1: 124.8 cu yd')).toBe(
    'sobreexcavación 0\'-8", espesor de la base 0\'-4", talud de los lados 1:1: 124.8 cu yd',
  );
  expect(heard('12 goats - 3 goats')).toBe('12 goats - 3 goats');
});

test('a word is heard as it is written, with a capital or without', () => {
  expect(heard('Septic tank')).toBe('Fosa séptica');
  expect(heard('septic tank')).toBe('la fosa séptica');
  expect(heard('Total cut')).toBe('Corte total');
});

test('a kind of the core is no button of the page that is written alike', () => {
  expect(heard('Walk')).toBe('Camino');
  expect(spanish.words['Walk']).toBe('Caminar');
});

test('sentences are heard one by one, and what is not known stays as it is', () => {
  expect(heard('Ask the utility that owns it, and keep what it and the electrical code in force require. Nobody knows Harrison.')).toBe(
    'Pregunte a la compañía dueña, y guarde lo que piden ella y el código eléctrico vigente. Nobody knows Harrison.',
  );
});

test("somebody's own text and figures stay as they are", () => {
  for (const own of ['Elm Street', 'Jon’s oak', '12\'-6 1/2"', '3.81 m', 'Lot 4, Block B', '', 'The Smith place reaches the road']) expect(heard(own)).toBe(own);
});

test('a text with the signs of a template does no harm', () => {
  expect(heard('{name} {')).toBe('{name} {');
  expect(heard('The {part} {does} {thing}.')).toContain('{');
});

test('de el and a el are one word, and names with a capital are left alone', () => {
  expect(mend('de el lindero, A el muro')).toBe('del lindero, Al muro');
  expect(mend('de El Paso a El Centro')).toBe('de El Paso a El Centro');
});
