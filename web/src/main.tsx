import { render } from 'preact';
import './tokens.css';
import './base.css';
import './shell/shell.css';
import './controls/field.css';
import './controls/number_keys.css';
import './pictures/pictures.css';
import './measure/reading.css';
import './measure/setup.css';
import './measure/measure.css';
import { followLinks } from './route/router';
import { App } from './shell/app';
import { applyPreferences } from './state/preferences';

applyPreferences(document.documentElement, window.matchMedia('(prefers-color-scheme: dark)'));
followLinks(window);
const page = document.getElementById('page');
if (page) render(<App />, page);
